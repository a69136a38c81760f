using System.Globalization;
using System.Text;
using System.Text.Json;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Pages.Numbers;

/// <summary>One number or rule of the catalog and where it comes from.</summary>
/// <param name="Name">What it says, from the catalog's own names.</param>
/// <param name="Provenance">Id, such as <c>common-practice</c>.</param>
/// <param name="Source">The publication or the remark, where there is one.</param>
public sealed record FigureRow(string Name, string Value, string Provenance, string? Source);

/// <summary>
/// Lists whatever in a part of the catalog carries a provenance. It reads the same JSON that the API shows, so no figure can be left out
/// here by forgetting it.
/// </summary>
public static class FigureRows
{
    private const string ProvenanceName = "provenance";
    private static readonly string[] Told = ["provenance", "source", "note", "value", "low", "high"];

    private static readonly (string Ending, string Unit)[] Units =
        [("Cd", "°C·d"), ("Percent", "%"), ("Mm", "mm"), ("Cm", "cm"), ("C", "°C"), ("M", "m"), ("Days", "days")];

    public static IReadOnlyList<FigureRow> Of<T>(T part)
    {
        using var json = JsonDocument.Parse(Json.Write(part));
        var rows = new List<FigureRow>();
        Walk(json.RootElement, [], rows);
        return rows;
    }

    private static void Walk(JsonElement element, IReadOnlyList<string> path, List<FigureRow> rows)
    {
        if (element.ValueKind == JsonValueKind.Array)
        {
            foreach (var item in element.EnumerateArray())
                Walk(item, path, rows);
        }
        if (element.ValueKind != JsonValueKind.Object)
            return;
        if (Text(element, ProvenanceName) is { } provenance)
        {
            var (name, unit) = Named(path.Count == 0 ? "rule" : path[^1]);
            var above = string.Join(", ", path.SkipLast(1).Select(step => Named(step).Name));
            rows.Add(new FigureRow(above.Length == 0 ? name : $"{above}: {name}", Value(element, unit), provenance,
                string.Join("; ", new[] { Text(element, "source"), Text(element, "note") }.OfType<string>()) is { Length: > 0 } source ? source : null));
        }
        foreach (var field in element.EnumerateObject())
            Walk(field.Value, [.. path, field.Name], rows);
    }

    private static string Value(JsonElement element, string unit)
    {
        var text = new StringBuilder();
        if (element.TryGetProperty("value", out var value))
            text.Append(Compact(value)).Append(unit.Length > 0 ? $" {unit}" : "");
        if (element.TryGetProperty("low", out var low) && low.ValueKind == JsonValueKind.Number && element.TryGetProperty("high", out var high) && high.ValueKind == JsonValueKind.Number)
            text.Append(CultureInfo.InvariantCulture, $" ({Compact(low)} to {Compact(high)})");
        var rest = element.EnumerateObject().Where(field => !Told.Contains(field.Name) && !HasOwnProvenance(field.Value) && Compact(field.Value).Length > 0)
            .Select(field => $"{Named(field.Name).Name} {Compact(field.Value)}");
        return text.Append(text.Length > 0 ? " " : "").AppendJoin("; ", rest).ToString().Trim();
    }

    private static string Compact(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => string.Join(", ", element.EnumerateObject().Select(field => (field.Name, Text: Compact(field.Value)))
            .Where(field => field.Text.Length > 0).Select(field => $"{Named(field.Name).Name} {field.Text}")),
        JsonValueKind.Array => string.Join(" / ", element.EnumerateArray().Select(Compact).Where(text => text.Length > 0)),
        JsonValueKind.Null => "",
        JsonValueKind.True => "yes",
        JsonValueKind.False => "",
        _ => element.ToString()
    };

    private static bool HasOwnProvenance(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => element.TryGetProperty(ProvenanceName, out _),
        JsonValueKind.Array => element.EnumerateArray().Any(HasOwnProvenance),
        _ => false
    };

    private static string? Text(JsonElement element, string name) =>
        element.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    // "budBreakCd" is "bud break" in degree-days.
    private static (string Name, string Unit) Named(string name)
    {
        var unit = Units.FirstOrDefault(one => name.Length > one.Ending.Length && name.EndsWith(one.Ending, StringComparison.Ordinal));
        var bare = unit.Unit is null ? name : name[..^unit.Ending.Length];
        var words = string.Concat(bare.Select(letter => char.IsAsciiLetterUpper(letter) ? $" {char.ToLowerInvariant(letter)}" : letter.ToString())).Replace('-', ' ').Trim();
        return (words, unit.Unit ?? "");
    }
}
