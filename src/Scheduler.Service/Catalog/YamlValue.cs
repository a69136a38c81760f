using System.Globalization;
using YamlDotNet.Core;
using YamlDotNet.RepresentationModel;

namespace Scheduler.Service.Catalog;

/// <summary>YAML as plain values: text, whole number, number, true or false, list, names and values. Quotes make text.</summary>
internal static class YamlValue
{
    public static IReadOnlyDictionary<string, object?> Of(YamlMappingNode map) =>
        map.Children.ToDictionary(entry => (entry.Key as YamlScalarNode)?.Value ?? "", entry => Of(entry.Value), StringComparer.Ordinal);

    private static object? Of(YamlNode node) => node switch
    {
        YamlMappingNode map => Of(map),
        YamlSequenceNode list => (IReadOnlyList<object?>)[.. list.Children.Select(Of)],
        YamlScalarNode { Style: ScalarStyle.Plain } plain => OfPlain(plain.Value ?? ""),
        YamlScalarNode quoted => quoted.Value,
        _ => null
    };

    private static object? OfPlain(string text) => text switch
    {
        "" or "~" or "null" => null,
        "true" => true,
        "false" => false,
        _ when int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var whole) => whole,
        _ when double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) => number,
        _ => text
    };
}
