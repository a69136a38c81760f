using Scheduler.Domain.Phenology;

namespace Scheduler.Service.Catalog;

/// <summary>Everything the catalog folder says, checked. It never changes while the service runs.</summary>
public sealed class CatalogContent(IReadOnlyDictionary<string, Species> species, GrowthRules growthRules)
{
    /// <summary>By id.</summary>
    public IReadOnlyDictionary<string, Species> Species { get; } = species;

    public GrowthRules GrowthRules { get; } = growthRules;

    /// <summary>Ids nearest to a text that may be an id, a botanical or a common name.</summary>
    public IReadOnlyList<string> NearestSpecies(string text, int count = 3) => Hosting.NearestIds.Of(text,
        Species.Values.Select(one => (one.Id, (IEnumerable<string>)[one.Id, one.BotanicalName, one.CommonName])), count);
}
