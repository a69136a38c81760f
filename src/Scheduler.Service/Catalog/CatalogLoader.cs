namespace Scheduler.Service.Catalog;

/// <summary>Reads the whole catalog folder, or refuses it with every fault it has.</summary>
public static class CatalogLoader
{
    /// <exception cref="CatalogException">Something in the folder is missing or wrong.</exception>
    public static CatalogContent Load(string folder)
    {
        var faults = new FaultList();
        var files = CatalogFiles.Open(folder, faults);
        var groups = new[] { "MPJ", "DMF", "DSF", "FSH", "FOB", "FOL", "FNW", "AZA", "EBT", "EBW", "PN2", "PN1", "JNS", "JNN", "CYP", "SPF", "YEW", "DCN" };
        var techniques = new[] { "full-defoliation", "cut-back", "tip-pinch", "leaf-thinning", "partial-defoliation" };

        var reader = new SpeciesReader(groups, techniques);
        var species = files.Species.ConvertAll(reader.Read);
        var rules = files.Growth is { } growth ? GrowthRulesReader.Read(growth) : null;

        return faults.All is { Count: > 0 } all
            ? throw new CatalogException(all)
            : new CatalogContent(species.ToDictionary(one => one.Id, StringComparer.Ordinal), rules!);
    }
}
