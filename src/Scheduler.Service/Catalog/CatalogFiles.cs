namespace Scheduler.Service.Catalog;

/// <summary>The files of a catalog folder, parsed but not yet understood.</summary>
internal sealed record CatalogFiles
{
    private static readonly string[] Shared = ["growth.yaml", "groups.yaml", "reasons.yaml", "thresholds.yaml", "settings.yaml", PlanningReader.File, KinshipReader.File];

    /// <summary>Files of which there is one, by name; one that cannot be read is left out and its fault told.</summary>
    public required IReadOnlyDictionary<string, YamlMap> Single { get; init; }
    public required IReadOnlyList<YamlMap> Species { get; init; }
    public required IReadOnlyList<YamlMap> Techniques { get; init; }
    /// <summary>By the names of the files, so that one broken file does not make every mention of it a fault.</summary>
    public required IReadOnlyList<string> SpeciesIds { get; init; }
    public required IReadOnlyList<string> TechniqueIds { get; init; }

    /// <summary>Names of the owner's files among them.</summary>
    public required IReadOnlyList<string> Own { get; init; }

    /// <param name="own">The owner's folder of the same layout, laid over ours; null: there is none.</param>
    public static CatalogFiles Open(string folder, string? own, FaultList faults)
    {
        var ours = Shared.Concat(Names(folder, "species", faults)).Concat(Names(folder, "techniques", faults)).ToList();
        var theirs = own is null ? [] : OwnFolder.Names(own, Shared, faults);
        // Parsing is most of the work at the start of the service.
        var files = ours.Select(name => (Name: name, Path: Path.Combine(folder, name), Shown: name))
            .Concat(theirs.Select(name => (Name: name, Path: Path.Combine(own!, name), Shown: OwnFolder.Shown(name))))
            .AsParallel().AsOrdered()
            .Select(file => (file.Name, Map: YamlFile.Open(file.Path, file.Shown, faults)))
            .ToList();
        var maps = new Dictionary<string, YamlMap>(StringComparer.Ordinal);
        foreach (var (name, map) in files.Take(ours.Count).Where(file => file.Map is not null))
            maps[name] = map!;
        var shipped = new Dictionary<string, YamlMap>(maps, StringComparer.Ordinal);
        foreach (var (name, map) in files.Skip(ours.Count).Where(file => file.Map is not null))
            maps[name] = OwnFolder.Over(name, map!, shipped, faults);
        return new CatalogFiles
        {
            Single = maps.Where(file => !file.Key.Contains('/')).ToDictionary(),
            Species = OnePerId(In("species/")),
            Techniques = OnePerId(In("techniques/")),
            SpeciesIds = Ids("species/"),
            TechniqueIds = Ids("techniques/"),
            Own = theirs
        };

        IEnumerable<YamlMap> In(string sub) =>
            maps.Where(file => file.Key.StartsWith(sub, StringComparison.Ordinal)).OrderBy(file => file.Key, StringComparer.Ordinal).Select(file => file.Value);

        IReadOnlyList<string> Ids(string sub) => [.. ours.Concat(theirs).Distinct()
            .Where(name => name.StartsWith(sub, StringComparison.Ordinal)).Select(Path.GetFileNameWithoutExtension).OfType<string>()];
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
