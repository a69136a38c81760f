using Scheduler.Domain.Phenology;
using Scheduler.Service.Catalog;

namespace Scheduler.Service.Pages.Layout;

/// <summary>Species as owners name them: by common name, by botanical name, or by both.</summary>
public sealed class SpeciesNames(CurrentCatalog catalog)
{
    /// <summary>All, by common name, as they stand in the list to choose from.</summary>
    public IReadOnlyList<string> All => [.. catalog.Content.Species.Values.OrderBy(one => one.CommonName, StringComparer.OrdinalIgnoreCase).Select(Label)];

    public string Label(string id) => catalog.Content.Species.TryGetValue(id, out var species) ? Label(species) : id;

    public Species? Of(string id) => catalog.Content.Species.GetValueOrDefault(id);

    /// <summary>The id of what was typed; null when it names no species of the catalog, or more than one.</summary>
    public string? Find(string? typed)
    {
        if (typed is null)
            return null;
        var text = typed.Trim();
        var all = catalog.Content.Species.Values;
        if (all.FirstOrDefault(one => Names(one).Contains(text, StringComparer.OrdinalIgnoreCase)) is { } exact)
            return exact.Id;
        var within = all.Where(one => Names(one).Any(name => name.Contains(text, StringComparison.OrdinalIgnoreCase))).Take(2).ToList();
        return within.Count == 1 ? within[0].Id : null;
    }

    /// <summary>What looks most like it.</summary>
    public IReadOnlyList<string> Nearest(string? typed)
    {
        var text = typed?.Trim() ?? "";
        var within = catalog.Content.Species.Values.Where(one => Names(one).Any(name => name.Contains(text, StringComparison.OrdinalIgnoreCase)));
        return [.. within.Select(one => one.Id).Concat(catalog.Content.NearestSpecies(text)).Distinct().Take(5).Select(Label)];
    }

    private static string Label(Species species) => $"{species.CommonName} ({species.BotanicalName})";

    private static string[] Names(Species species) => [species.Id, species.CommonName, species.BotanicalName, Label(species)];
}
