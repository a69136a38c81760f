using Scheduler.Service.Hosting;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Catalog;

/// <summary>What requests need to know of the catalog's ids.</summary>
internal sealed class CatalogNames(CurrentCatalog catalog) : ISpeciesNames, ITechniqueNames
{
    private const int Count = 3;

    public IReadOnlyCollection<string> Groups => [.. catalog.Content.Craft.Groups.Keys];

    bool ISpeciesNames.Exists(string id) => catalog.Content.Species.ContainsKey(id);

    IReadOnlyList<string> ISpeciesNames.Nearest(string id) => catalog.Content.NearestSpecies(id);

    (string Name, string ColdestZone)? ISpeciesNames.Hardiness(string id) =>
        catalog.Content.Species.TryGetValue(id, out var species) ? (species.CommonName, species.Hardiness.ColdestZone) : null;

    bool ITechniqueNames.Exists(string id) => catalog.Content.TechniqueIds.Contains(id);

    IReadOnlyList<string> ITechniqueNames.Nearest(string id) =>
        NearestIds.Of(id, catalog.Content.TechniqueIds.Select(one => (one, (IEnumerable<string>)[one])), Count);

    IReadOnlyCollection<string> ITechniqueNames.Modes(string? techniqueId) =>
        [.. (catalog.Content.Craft.Find(techniqueId ?? "")?.Modes ?? []).Select(mode => mode.Id).OfType<string>()];
}
