using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Service.Catalog;

/// <summary>Reads <c>genera.yaml</c>: which family a genus belongs to.</summary>
internal static class KinshipReader
{
    public const string File = "genera.yaml";

    /// <summary>The file on its own, for the command that needs nothing else of the catalog.</summary>
    /// <exception cref="CatalogException">The file is missing or wrong.</exception>
    public static Kinship Load(string folder)
    {
        var faults = new FaultList();
        var kinship = Read(YamlFile.Open(Path.Combine(folder, File), File, faults) ?? YamlMap.Mute(File));
        return faults.All is { Count: > 0 } all ? throw new CatalogException(all) : kinship;
    }

    public static Kinship Read(YamlMap map)
    {
        map.Origin();
        var families = map.Map("families");
        var byGenus = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var family in families.Keys)
        {
            foreach (var genus in families.Texts(family).Where(genus => !byGenus.TryAdd(genus, family)))
                families.Fault(family, genus, $"stands under {byGenus[genus]} already", "Keep one of the two.");
        }
        map.RefuseUnknownKeys();
        return new Kinship(byGenus);
    }
}
