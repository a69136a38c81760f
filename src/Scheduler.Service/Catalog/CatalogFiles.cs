namespace Scheduler.Service.Catalog;

/// <summary>The files of a catalog folder, parsed but not yet understood.</summary>
internal sealed record CatalogFiles
{
    private static readonly string[] Shared = ["growth.yaml", "groups.yaml", "reasons.yaml", "thresholds.yaml", "loads.yaml", PlanningReader.File, KinshipReader.File];

    /// <summary>Files of which there is one, by name; one that cannot be read is left out and its fault told.</summary>
    public required IReadOnlyDictionary<string, YamlMap> Single { get; init; }
    public required IReadOnlyList<YamlMap> Species { get; init; }
    public required IReadOnlyList<YamlMap> Techniques { get; init; }
    /// <summary>By the names of the files, so that one broken file does not make every mention of it a fault.</summary>
    public required IReadOnlyList<string> SpeciesIds { get; init; }

    public static CatalogFiles Open(string folder, FaultList faults)
    {
        var names = Shared.Concat(Names(folder, "species", faults)).Concat(Names(folder, "techniques", faults)).ToList();
        // Parsing is most of the work at the start of the service.
        var files = names.AsParallel().AsOrdered()
            .Select(name => (Name: name, Map: YamlFile.Open(Path.Combine(folder, name), name, faults)))
            .ToList();
        return new CatalogFiles
        {
            Single = files.Where(file => file.Map is not null && !file.Name.Contains('/')).ToDictionary(file => file.Name, file => file.Map!),
            Species = OnePerId(In("species/")),
            Techniques = OnePerId(In("techniques/")),
            SpeciesIds = [.. names.Where(name => name.StartsWith("species/", StringComparison.Ordinal)).Select(name => Path.GetFileNameWithoutExtension(name))]
        };

        IEnumerable<YamlMap> In(string sub) =>
            files.Where(file => file.Name.StartsWith(sub, StringComparison.Ordinal)).Select(file => file.Map).OfType<YamlMap>();
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
    private static List<YamlMap> OnePerId(IEnumerable<YamlMap> maps)
    {
        var first = new Dictionary<string, string>(StringComparer.Ordinal);
        var kept = maps.ToList();
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
