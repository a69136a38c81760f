using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

/// <summary>What to do instead.</summary>
public sealed record FallbackRule(AppliesTo For, IReadOnlyList<string> Techniques, Trigger? When, string Text) : IRuleRow
{
    /// <summary>Of the numbers in <see cref="When"/>.</summary>
    public Provenance Provenance { get; init; } = Provenance.CommonPractice;
}
