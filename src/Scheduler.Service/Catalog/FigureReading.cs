using Scheduler.Domain.Phenology;

namespace Scheduler.Service.Catalog;

/// <summary>Reads numbers that carry their provenance: <c>{ value: 60, provenance: estimate }</c>.</summary>
internal static class FigureReading
{
    private static readonly Figure StandIn = new(0, Provenance.Estimate);

    public static Figure Figure(this YamlMap map, string key, double low, double high)
    {
        if (map.OptionalFigure(key, low, high) is { } figure)
            return figure;
        if (!map.Has(key))
            map.Fault(key, null, "is missing", $"Add '{key}: {{ value: ..., provenance: ... }}'.");
        return StandIn;
    }

    public static Figure? OptionalFigure(this YamlMap map, string key, double low, double high)
    {
        if (!map.Has(key))
            return null;
        var entry = map.OptionalMap(key)!;
        var value = entry.Number("value", low, high);
        var from = entry.OptionalNumber("low", low, high);
        var to = entry.OptionalNumber("high", low, high);
        if (from > value)
            entry.Fault("low", null, "lies above the value", "Write low, value and high in ascending order.");
        if (to < value)
            entry.Fault("high", null, "lies below the value", "Write low, value and high in ascending order.");
        var (provenance, source) = entry.Origin();
        return new Figure(value, provenance, source, from, to, entry.OptionalText("note"));
    }

    /// <summary>A figure that the file must state, as a number or as <c>value: none</c> where there is none.</summary>
    public static Figure? FigureOrNone(this YamlMap map, string key, double low, double high)
    {
        if (!map.Has(key) || map.OptionalMap(key) is not { } entry || entry.OptionalText("value") != "none")
            return map.Figure(key, low, high);
        entry.Origin();
        return null;
    }

    public static IReadOnlyList<Finding> Findings(this YamlMap map, string key)
    {
        var findings = new List<Finding>();
        foreach (var entry in map.Maps(key))
        {
            var text = entry.Text("text");
            var (provenance, source) = entry.Origin();
            findings.Add(new Finding(text, provenance, source));
        }
        return findings;
    }

    /// <summary>Provenance and source; what is published must name its source.</summary>
    public static (Provenance Provenance, string? Source) Origin(this YamlMap entry)
    {
        var provenance = entry.Enum<Provenance>("provenance");
        var source = entry.OptionalText("source");
        if (provenance == Provenance.Published && entry.Has("provenance") && source is null)
            entry.Fault("source", null, "is missing", "Name the publication, or write another provenance.");
        return (provenance, source);
    }
}
