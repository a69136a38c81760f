using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Service.Catalog;

/// <summary>Reads <c>clock.yaml</c> (shapes of the growth clock) and <c>genera.yaml</c> (families of genera).</summary>
internal static class ClockRulesReader
{
    public const string ClockFile = "clock.yaml";
    public const string GeneraFile = "genera.yaml";

    /// <summary>Both files on their own, for the command that needs nothing else of the catalog.</summary>
    /// <exception cref="CatalogException">A file is missing or wrong.</exception>
    public static (ClockRules Rules, Kinship Kinship) Load(string folder)
    {
        var faults = new FaultList();
        var rules = Rules(Open(ClockFile));
        var kinship = Kinship(Open(GeneraFile));
        return faults.All is { Count: > 0 } all ? throw new CatalogException(all) : (rules, kinship);

        YamlMap Open(string name) => YamlFile.Open(Path.Combine(folder, name), name, faults) ?? YamlMap.Mute(name);
    }

    public static ClockRules Rules(YamlMap map)
    {
        var rules = new ClockRules { Trees = Group(map, "trees"), Fruit = Group(map, "fruit"), Vines = Group(map, "vines") };
        map.RefuseUnknownKeys();
        return rules;
    }

    public static Kinship Kinship(YamlMap map)
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

    private static ShapeGroup Group(YamlMap map, string key)
    {
        var group = map.Map(key);
        group.Origin();
        var shapes = group.Maps("shapes").Select(shape => new IndexShape(
            shape.Whole("baseC", 0, SeasonDrivers.HighestBaseC),
            shape.Number("dayLengthPower", 0, 10),
            shape.OptionalWhole("daysBeforeUsual", 20, 150),
            shape.Number("chillRate", 0, 0.1))).ToList();
        if (shapes.Count == 0 && map.Has(key))
            group.Fault("shapes", null, "holds no shape", "Write at least one '- { baseC: ..., dayLengthPower: ..., chillRate: ... }'.");
        return new ShapeGroup(key, shapes);
    }
}
