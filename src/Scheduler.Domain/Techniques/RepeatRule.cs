using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

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
public sealed record PassLimit(AppliesTo For, int Passes) : IRuleRow;
