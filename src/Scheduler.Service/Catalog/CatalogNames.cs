using Scheduler.Service.Hosting;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Catalog;

/// <summary>What requests need to know of the catalog's ids.</summary>
internal sealed class CatalogNames(CatalogContent catalog) : ISpeciesNames, ITechniqueNames
{
    private const int Count = 3;

    public IReadOnlyCollection<string> Groups => [.. catalog.Craft.Groups.Keys];

    bool ISpeciesNames.Exists(string id) => catalog.Species.ContainsKey(id);

    IReadOnlyList<string> ISpeciesNames.Nearest(string id) => catalog.NearestSpecies(id);

    bool ITechniqueNames.Exists(string id) => CatalogContent.TechniqueIds.Contains(id);

    IReadOnlyList<string> ITechniqueNames.Nearest(string id) =>
        NearestIds.Of(id, CatalogContent.TechniqueIds.Select(one => (one, (IEnumerable<string>)[one])), Count);

    IReadOnlyCollection<string> ITechniqueNames.Modes(string? techniqueId) =>
        [.. (catalog.Craft.Find(techniqueId ?? "")?.Modes ?? []).Select(mode => mode.Id).OfType<string>()];
}
