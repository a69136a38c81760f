namespace Scheduler.Service.Catalog;

/// <summary>The files of a catalog folder, parsed but not yet understood.</summary>
internal sealed record CatalogFiles
{
    public required YamlMap? Growth { get; init; }
    public required List<YamlMap> Species { get; init; }

    public static CatalogFiles Open(string folder, FaultList faults)
    {
        var paths = new[] { "growth.yaml" }
            .Concat(Names(folder, "species", faults))
            .ToList();
        // Parsing is most of the work at the start of the service.
        var maps = paths.AsParallel().AsOrdered()
            .Select(name => (Name: name, Map: YamlFile.Open(Path.Combine(folder, name), name, faults)))
            .ToList();
        return new CatalogFiles
        {
            Growth = maps[0].Map,
            Species = OnePerId(maps.Where(file => file.Name.StartsWith("species/", StringComparison.Ordinal)).Select(file => file.Map), faults)
        };
    }

    private static IEnumerable<string> Names(string folder, string sub, FaultList faults)
    {
        var path = Path.Combine(folder, sub);
        var names = Directory.Exists(path)
            ? Directory.EnumerateFiles(path, "*.yaml").Select(file => $"{sub}/{Path.GetFileName(file)}").Order(StringComparer.Ordinal).ToList()
            : [];
        if (names.Count == 0)
            faults.Add(new(sub + "/", 0, "", null, $"holds no .yaml file in {folder}", "Point the setting Catalog:Folder to a folder that has them."));
        return names;
    }

    /// <summary>The file is named after the id, so two files with the same id show here as well.</summary>
    private static List<YamlMap> OnePerId(IEnumerable<YamlMap?> maps, FaultList faults)
    {
        var first = new Dictionary<string, string>(StringComparer.Ordinal);
        var kept = maps.OfType<YamlMap>().ToList();
        foreach (var map in kept.Where(map => map.Has("id")))
        {
            var id = map.Text("id");
            if (!first.TryAdd(id, map.File))
                map.Fault("id", id, $"is the id of {first[id]} as well", "Give each file its own id.");
            else if (Path.GetFileNameWithoutExtension(map.File) != id)
                map.Fault("id", id, "differs from the file name", $"Name the file {id}.yaml, or write the id of the file.");
        }
        return kept;
    }
}
