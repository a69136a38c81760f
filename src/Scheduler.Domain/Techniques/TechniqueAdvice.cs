using NodaTime;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>The whole answer for one technique on one tree today. Parts of the tree and modes are listed in <see cref="Parts"/>.</summary>
public sealed record TechniqueAdvice
{
    public required string Technique { get; init; }
    public required Verdict Verdict { get; init; }
    /// <summary>The first is the main reason.</summary>
    public required IReadOnlyList<Reason> Reasons { get; init; }
    /// <summary>How much, as facts: each entry speaks of some shoots or the whole tree (leavesKept, takePercent, cutAt ...).</summary>
    public IReadOnlyList<IReadOnlyDictionary<string, object>> Amount { get; init; } = [];
    /// <summary>The same as one sentence.</summary>
    public string? AmountText { get; init; }
    public IReadOnlyList<string> How { get; init; } = [];
    public IReadOnlyList<string> Cautions { get; init; } = [];
    public IReadOnlyList<string> Aftercare { get; init; } = [];
    /// <summary>What opens it, as a condition on growth.</summary>
    public Trigger? Opens { get; init; }
    public Trigger? Closes { get; init; }
    public string? Hold { get; init; }
    public LocalDate? HeldUntil { get; init; }
    /// <summary>When a bar ends.</summary>
    public Trigger? BarredUntil { get; init; }
    /// <summary>What to do instead once the window is missed.</summary>
    public Fallback? Fallback { get; init; }
    /// <summary>What comes of it: looks and next eligible points.</summary>
    public IReadOnlyList<FollowUp> FollowUps { get; init; } = [];
    public int? Minutes { get; init; }
    public Sessions? Sessions { get; init; }
    public string? People { get; init; }
    /// <summary>The window this answer speaks of, if there is one this growth year or next.</summary>
    public WorkWindow? Window { get; init; }
    public IReadOnlyList<PartAdvice> Parts { get; init; } = [];
}

/// <summary>The answer for one branch, crown zone or mode. What is null does not divide the answer.</summary>
public sealed record PartAdvice
{
    public CrownZone? CrownZone { get; init; }
    /// <summary>Id of the branch.</summary>
    public string? Branch { get; init; }
    /// <summary>Mode of the technique, such as the return cut of outline trimming.</summary>
    public string? Mode { get; init; }
    public required Verdict Verdict { get; init; }
    public required IReadOnlyList<Reason> Reasons { get; init; }
    public IReadOnlyList<IReadOnlyDictionary<string, object>> Amount { get; init; } = [];
    public string? AmountText { get; init; }
    public Trigger? Opens { get; init; }
    public Trigger? Closes { get; init; }
    public string? Hold { get; init; }
    public LocalDate? HeldUntil { get; init; }
    public Trigger? BarredUntil { get; init; }
    public Fallback? Fallback { get; init; }
    public IReadOnlyList<FollowUp> FollowUps { get; init; } = [];
    public int? Minutes { get; init; }
    public Sessions? Sessions { get; init; }
}

/// <summary>Another technique that does the job once this one's window is gone.</summary>
public sealed record Fallback(IReadOnlyList<string> Techniques, Trigger? When, string Text);

/// <summary>A dated promise made by an answer: look, or work, at a due point.</summary>
public sealed record FollowUp(string What, Trigger When, string? Technique, string Text);
