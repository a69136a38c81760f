using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Catalog;

/// <summary>Reads the files that all techniques share: groups, sentences of reasons, holds and modes, thresholds, loads.</summary>
internal static class CraftReader
{
    public static IReadOnlyDictionary<string, TechniqueGroup> Groups(YamlMap map)
    {
        var groups = Entries(map, (group, code) => new TechniqueGroup(
            code,
            group.Text("name"),
            group.Text("behavior"),
            group.Flag("severalFlushes"),
            group.Flag("growsWheneverWarm"),
            group.Flag("conifer"),
            group.Flag("dormancyCut"))
        {
            Like = group.OptionalText("like")
        });
        foreach (var (code, like) in groups.Where(group => group.Value.Like is not null).Select(group => (group.Key, group.Value.Like!)))
        {
            if (like == code || !groups.TryGetValue(like, out var other) || other.Like is not null)
                map.Map(code).Fault("like", like, "is no group with rules of its own", "Name a group that is not like another.");
        }
        map.RefuseUnknownKeys();
        return groups;
    }

    public static IReadOnlyDictionary<string, string> Sentences(YamlMap map, string key)
    {
        var list = map.Map(key);
        var sentences = list.Keys.ToDictionary(id => id, list.Text, StringComparer.Ordinal);
        foreach (var (id, text) in sentences.Where(entry => entry.Value.Length > 0 && !entry.Value.EndsWith('.')))
            list.Fault(id, text, "is not a sentence", "End it with a full stop.");
        return sentences;
    }

    /// <summary>A key for each figure of <see cref="Domain.Techniques.Thresholds"/>, by its name; the unit in the name bounds the value.</summary>
    public static Thresholds Thresholds(YamlMap map)
    {
        var thresholds = Figures<Thresholds>(map);
        map.RefuseUnknownKeys();
        return thresholds;
    }

    /// <summary>All properties that are figures, each from the key of its name; the rest is not set yet.</summary>
    public static T Figures<T>(YamlMap map)
    {
        var made = Activator.CreateInstance<T>();
        foreach (var property in typeof(T).GetProperties().Where(property => property.PropertyType == typeof(Figure)))
        {
            var key = char.ToLowerInvariant(property.Name[0]) + property.Name[1..];
            var (low, high) = Bounds(key);
            property.SetValue(made, map.Figure(key, low, high));
        }
        return made;
    }

    private static (double Low, double High) Bounds(string key) =>
        key.EndsWith('C') ? (-60, 60) : key.EndsWith("Percent", StringComparison.Ordinal) ? (0, 100) : (0, 10_000);

    private static Dictionary<string, T> Entries<T>(YamlMap map, Func<YamlMap, string, T> read) =>
        map.Keys.ToDictionary(id => id, id => read(map.Map(id), id), StringComparer.Ordinal);
}
