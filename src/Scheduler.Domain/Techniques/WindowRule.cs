using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

/// <summary>When a window opens and closes for the trees it applies to.</summary>
public sealed record WindowRule : IRuleRow
{
    public AppliesTo For { get; init; } = AppliesTo.Every;
    public required Trigger Opens { get; init; }
    /// <summary>Null: only the count-back to frost closes it.</summary>
    public Trigger? Closes { get; init; }
    /// <summary>Further times in the same growth year, in their order; the first that has not closed counts.</summary>
    public IReadOnlyList<Opening> Again { get; init; } = [];
    public required Provenance Provenance { get; init; }
    public string? Source { get; init; }
}
