using YamlDotNet.Core;
using YamlDotNet.RepresentationModel;

namespace Scheduler.Service.Catalog;

/// <summary>
/// Lays the owner's file over one of ours, key by key. Maps are laid over each other in turn; a block that states its
/// provenance is replaced whole, so that a changed number never keeps the source of the one before.
/// </summary>
internal static class YamlOverlay
{
    private static readonly YamlScalarNode Provenance = new("provenance");

    public static YamlMappingNode Of(YamlMappingNode below, YamlMappingNode above)
    {
        var merged = Copy(below);
        foreach (var (key, value) in above.Children)
        {
            merged.Children[key] = value is YamlMappingNode over && merged.Children.TryGetValue(key, out var under)
                && under is YamlMappingNode map && !over.Children.ContainsKey(Provenance) && !map.Children.ContainsKey(Provenance)
                ? Of(map, over)
                : value;
        }
        return merged;
    }

    private static YamlMappingNode Copy(YamlMappingNode map) =>
        new(map.Children.Select(entry => KeyValuePair.Create(Unplaced(entry.Key), Unplaced(entry.Value))));

    // A line of our file would be told as one of the owner's, so copies have none.
    private static YamlNode Unplaced(YamlNode node) => node switch
    {
        YamlMappingNode map => Copy(map),
        YamlSequenceNode list => new YamlSequenceNode(list.Children.Select(Unplaced)),
        YamlScalarNode scalar => new YamlScalarNode(scalar.Value) { Style = scalar.Style == ScalarStyle.Any ? ScalarStyle.Plain : scalar.Style },
        _ => node
    };
}
