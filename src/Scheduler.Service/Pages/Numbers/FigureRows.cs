using System.Globalization;
using System.Text;
using System.Text.Json;
using Scheduler.Service.Pages.Frame;
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
public sealed class FigureRows
{
    private const string ProvenanceName = "provenance";
    private static readonly string[] Told = ["provenance", "source", "note", "value", "low", "high"];

    private readonly List<FigureRow> _rows = [];
    private readonly Locale _locale;
    private readonly FigureUnits _units;

    private FigureRows(Locale locale)
    {
        _locale = locale;
        _units = new FigureUnits(locale);
    }

    /// <param name="locale">Whose units, and whose way to write numbers.</param>
    public static IReadOnlyList<FigureRow> Of<T>(T part, Locale locale)
    {
        using var json = JsonDocument.Parse(Json.Write(part));
        var rows = new FigureRows(locale);
        rows.Walk(json.RootElement, []);
        return rows._rows;
    }

    private void Walk(JsonElement element, IReadOnlyList<string> path)
    {
        if (element.ValueKind == JsonValueKind.Array)
        {
            foreach (var item in element.EnumerateArray())
                Walk(item, path);
        }
        if (element.ValueKind != JsonValueKind.Object)
            return;
        if (Text(element, ProvenanceName) is { } provenance)
        {
            var (name, unit) = FigureUnits.Named(path.Count == 0 ? "rule" : path[^1]);
            var above = string.Join(", ", path.SkipLast(1).Select(step => FigureUnits.Named(step).Name));
            _rows.Add(new FigureRow(above.Length == 0 ? name : $"{above}: {name}", Value(element, unit), provenance,
                string.Join("; ", new[] { Text(element, "source"), Text(element, "note") is { } note ? _locale.Told(note) : null }.OfType<string>()) is { Length: > 0 } source ? source : null));
        }
        foreach (var field in element.EnumerateObject())
            Walk(field.Value, [.. path, field.Name]);
    }

    private string Value(JsonElement element, FigureUnit unit)
    {
        var text = new StringBuilder();
        if (element.TryGetProperty("value", out var value))
            text.Append(_units.Compact(value, unit));
        if (element.TryGetProperty("low", out var low) && low.ValueKind == JsonValueKind.Number && element.TryGetProperty("high", out var high) && high.ValueKind == JsonValueKind.Number)
            text.Append(CultureInfo.InvariantCulture, $" ({_units.Number(low.GetDouble(), unit)} to {_units.Number(high.GetDouble(), unit)})");
        var rest = element.EnumerateObject().Where(field => !Told.Contains(field.Name) && !HasOwnProvenance(field.Value))
            .Select(field => (Named: FigureUnits.Named(field.Name), field.Value)).Select(field => (field.Named.Name, Text: _units.Compact(field.Value, field.Named.Unit)))
            .Where(field => field.Text.Length > 0).Select(field => $"{field.Name} {field.Text}");
        return text.Append(text.Length > 0 ? " " : "").AppendJoin("; ", rest).ToString().Trim();
    }

    private static bool HasOwnProvenance(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => element.TryGetProperty(ProvenanceName, out _),
        JsonValueKind.Array => element.EnumerateArray().Any(HasOwnProvenance),
        _ => false
    };

    private static string? Text(JsonElement element, string name) =>
        element.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;
}
