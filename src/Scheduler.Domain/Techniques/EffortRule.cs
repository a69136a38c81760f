using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>Minutes of one session by size [min], sessions in a window, and how many people it takes from which size on.</summary>
public sealed record EffortRule
{
    public required IReadOnlyDictionary<TreeSize, int> Minutes { get; init; }
    public Sessions? Sessions { get; init; }
    public IReadOnlyDictionary<TreeSize, string> People { get; init; } = new Dictionary<TreeSize, string>();
    public required Provenance Provenance { get; init; }
}
