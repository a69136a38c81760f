using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>When a window opens and closes for the trees it applies to.</summary>
public sealed record WindowRule
{
    public AppliesTo For { get; init; } = AppliesTo.Every;
    public required Trigger Opens { get; init; }
    /// <summary>Null: only the count-back to frost closes it.</summary>
    public Trigger? Closes { get; init; }
    public required Provenance Provenance { get; init; }
    public string? Source { get; init; }
}

/// <summary>
/// Further passes of one growth year. A later pass opens from the logged work (or the likely date) of the pass before.
/// </summary>
public sealed record RepeatRule
{
    public required Trigger Opens { get; init; }
    /// <summary>Null: closes as the first pass does.</summary>
    public Trigger? Closes { get; init; }
    /// <summary>A later pass is announced only once the one before is logged.</summary>
    public bool OnlyAfterLogged { get; init; }
    /// <summary>Most passes in a growth year; the first that fits counts, none means once.</summary>
    public required IReadOnlyList<PassLimit> Most { get; init; }
    public required Provenance Provenance { get; init; }
}

/// <summary>Most passes in a growth year for the trees it applies to.</summary>
public sealed record PassLimit(AppliesTo For, int Passes);

/// <summary>After other work of this season, wait until the trigger holds (its heat counts from that work).</summary>
public sealed record GapRule(IReadOnlyList<string> After, Trigger Until, Provenance Provenance);

/// <summary>A reason for the work.</summary>
public sealed record CauseRule(string Reason, AppliesTo For);

/// <summary>How much: as entries a program can check, and as a sentence.</summary>
public sealed record AmountRule(
    AppliesTo For, IReadOnlyList<IReadOnlyDictionary<string, object>> Entries, string Text, Provenance Provenance);

/// <summary>A sentence for the trees it applies to.</summary>
public sealed record TextRule(AppliesTo For, string Text);

/// <summary>A promise made by an answer. <see cref="On"/> lists the verdicts that make it.</summary>
public sealed record FollowUpRule(
    AppliesTo For, IReadOnlyList<Verdict> On, string What, Trigger When, string? Technique, string Text, Provenance Provenance);

/// <summary>What to do instead.</summary>
public sealed record FallbackRule(AppliesTo For, IReadOnlyList<string> Techniques, Trigger? When, string Text);

/// <summary>Minutes of one session by size [min], sessions in a window, and how many people it takes from which size on.</summary>
public sealed record EffortRule
{
    public required IReadOnlyDictionary<TreeSize, int> Minutes { get; init; }
    public Sessions? Sessions { get; init; }
    public IReadOnlyDictionary<TreeSize, string> People { get; init; } = new Dictionary<TreeSize, string>();
    public required Provenance Provenance { get; init; }
}
