using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

/// <summary>How much: as entries a program can check, and as a sentence.</summary>
public sealed record AmountRule(
    AppliesTo For, IReadOnlyList<IReadOnlyDictionary<string, object>> Entries, string Text, Provenance Provenance) : IRuleRow;
