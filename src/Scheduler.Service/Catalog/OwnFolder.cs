namespace Scheduler.Service.Catalog;

/// <summary>
/// The owner's own catalog folder, laid out as ours. A species or technique file adds an entry or replaces ours of the same
/// id; a species file with <c>basedOn</c> changes only the keys it names; shared files (groups, thresholds, reasons,
/// loads, settings, growth rules, genera) are laid over ours key by key.
/// </summary>
internal static class OwnFolder
{
    private const string BasedOn = "basedOn";
    private static readonly string[] Subfolders = ["species", "techniques"];

    /// <summary>Name of an own file in faults and answers.</summary>
    public static string Shown(string name) => "own/" + name;

    /// <summary>The files it holds, by their names relative to it; a name that means nothing here is a fault.</summary>
    public static IReadOnlyList<string> Names(string own, IReadOnlyCollection<string> shared, FaultList faults)
    {
        if (!Directory.Exists(own))
        {
            faults.Add(new("own/", 0, "", null, $"is not there: {own}", "Make the folder, or correct the setting Catalog:OwnFolder."));
            return [];
        }
        var names = Directory.EnumerateFiles(own, "*.yaml", SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(own, path).Replace(Path.DirectorySeparatorChar, '/'))
            .Order(StringComparer.Ordinal).ToList();
        foreach (var stray in names.Where(name => !IsKnown(name)))
        {
            faults.Add(new(Shown(stray), 0, "", null, "is no file the catalog knows",
                $"Put it in species/ or techniques/, or name it one of {string.Join(", ", shared)}."));
        }
        return [.. names.Where(IsKnown)];

        bool IsKnown(string name) => shared.Contains(name) || name.Split('/') is [var folder, _] && Subfolders.Contains(folder);
    }

    /// <summary>What counts once an own file is laid over what we ship.</summary>
    public static YamlMap Over(string name, YamlMap own, IReadOnlyDictionary<string, YamlMap> shipped, FaultList faults)
    {
        if (!name.Contains('/'))
            return shipped.TryGetValue(name, out var shared) ? Merged(shared, own, faults) : own;
        if (!name.StartsWith("species/", StringComparison.Ordinal) || own.OptionalText(BasedOn) is not { } model)
            return own;
        if (!shipped.TryGetValue($"species/{model}.yaml", out var below))
        {
            own.Unknown(BasedOn, model, [.. shipped.Keys.Where(key => key.StartsWith("species/", StringComparison.Ordinal)).Select(key => Path.GetFileNameWithoutExtension(key)!)]);
            return own;
        }
        var merged = Merged(below, own, faults);
        merged.OptionalText(BasedOn);
        return merged;
    }

    private static YamlMap Merged(YamlMap below, YamlMap above, FaultList faults) =>
        new(YamlOverlay.Of(below.Node, above.Node), above.File, "", faults);
}
