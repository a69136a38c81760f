using System.Globalization;
using System.Text;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Hosting;

/// <summary>
/// One value out of a JSON body. Each reading method returns the value, or null after noting a fault that names the field, the value and
/// the remedy.
/// </summary>
public readonly record struct FieldValue(JsonElement Element, string Path, FieldFaults Faults)
{
    private const int ShownLength = 60;

    public bool IsNull => Element.ValueKind is JsonValueKind.Null;

    /// <summary>A line of text, or several when <paramref name="lines"/> is set; never empty, never with control characters.</summary>
    public string? Text(int maxLength, bool lines = false)
    {
        if (Element.ValueKind is not JsonValueKind.String)
            return Refuse<string>("give a text in quotes");
        var text = Element.GetString()!;
        if (string.IsNullOrWhiteSpace(text))
            return Refuse<string>("give a text that is not blank", new FaultKind("missing"));
        if (text.EnumerateRunes().Count() > maxLength)
            return Refuse<string>($"give at most {maxLength} characters", new FaultKind("long", maxLength.ToString(CultureInfo.InvariantCulture)));
        if (text.EnumerateRunes().Any(rune => IsControl(rune, lines)))
            return Refuse<string>(lines ? "leave out control characters other than line breaks and tabs" : "leave out control characters and line breaks", new FaultKind("characters"));
        return text;
    }

    /// <summary>A finite number within bounds, both inclusive.</summary>
    public double? Number(double min, double max, string unit = "")
    {
        var range = string.Create(CultureInfo.InvariantCulture, $"give a number from {min} to {max}{Spaced(unit)}");
        if (Element.ValueKind is not JsonValueKind.Number || !Element.TryGetDouble(out var number) || !double.IsFinite(number))
            return RefuseValue<double>(range, Span("number", min, max, unit));
        return number < min || number > max ? RefuseValue<double>(range, Span("number", min, max, unit)) : number;
    }

    /// <summary>A whole number within bounds, both inclusive.</summary>
    public int? Whole(int min, int max, string unit = "")
    {
        var range = $"give a whole number from {min} to {max}{Spaced(unit)}";
        if (Element.ValueKind is not JsonValueKind.Number || !Element.TryGetDouble(out var number) || number != Math.Floor(number))
            return RefuseValue<int>(range, Span("whole", min, max, unit));
        return number < min || number > max ? RefuseValue<int>(range, Span("whole", min, max, unit)) : (int)number;
    }

    public bool? Flag() => Element.ValueKind switch
    {
        JsonValueKind.True => true,
        JsonValueKind.False => false,
        _ => RefuseValue<bool>("give true or false")
    };

    /// <summary>A date within bounds, both inclusive.</summary>
    public LocalDate? Date(LocalDate earliest, LocalDate latest)
    {
        if (Element.ValueKind is not JsonValueKind.String || !LocalDatePattern.Iso.Parse(Element.GetString()!).TryGetValue(default, out var date))
            return RefuseValue<LocalDate>("give a date that exists, as yyyy-MM-dd", new FaultKind("date"));
        if (date > latest)
            return RefuseValue<LocalDate>($"give a date no later than {LocalDatePattern.Iso.Format(latest)}", new FaultKind("late", LocalDatePattern.Iso.Format(latest)));
        if (date < earliest)
            return RefuseValue<LocalDate>($"give a date no earlier than {LocalDatePattern.Iso.Format(earliest)}", new FaultKind("early", LocalDatePattern.Iso.Format(earliest)));
        return date;
    }

    /// <summary>A point in time in UTC, as the answers of this service write it.</summary>
    public Instant? Moment() =>
        Element.ValueKind is JsonValueKind.String && InstantPattern.ExtendedIso.Parse(Element.GetString()!).TryGetValue(default, out var instant)
            ? instant
            : RefuseValue<Instant>("give an instant in UTC, such as 2026-04-01T06:00:00Z");

    /// <summary>The id of a garden, a tree or the like.</summary>
    public Guid? Id() =>
        Element.ValueKind is JsonValueKind.String && Guid.TryParse(Element.GetString(), out var id)
            ? id
            : RefuseValue<Guid>("give an id, 32 hexadecimal digits with or without hyphens");

    /// <summary>One of the ids of an enum.</summary>
    public T? Choice<T>() where T : struct, Enum =>
        OneOf(Ids.All<T>()) is { } id && Ids.TryParse<T>(id, out var value) ? value : null;

    /// <summary>One of a short list of ids.</summary>
    public string? OneOf(IReadOnlyCollection<string> valid)
    {
        if (Element.ValueKind is JsonValueKind.String && valid.Contains(Element.GetString()!))
            return Element.GetString();
        return valid.Count <= 12
            ? Refuse<string>($"use one of {string.Join(", ", valid)}", new FaultKind("choice"))
            : Refuse<string>($"the nearest valid ids are {string.Join(", ", NearestIds.Of(AsTyped(), valid))}", new FaultKind("unknown", [.. NearestIds.Of(AsTyped(), valid)]));
    }

    /// <summary>One of the ids of the catalog; a fault names the nearest ones.</summary>
    public string? Known(Func<string, bool> exists, Func<string, IReadOnlyList<string>> nearest)
    {
        if (Element.ValueKind is JsonValueKind.String && exists(Element.GetString()!))
            return Element.GetString();
        return Refuse<string>($"the nearest valid ids are {string.Join(", ", nearest(AsTyped()))}", new FaultKind("unknown", [.. nearest(AsTyped())]));
    }

    /// <summary>The items of a list, each read on its own; null after a fault in the list itself or in an item.</summary>
    public IReadOnlyList<T>? List<T>(int maxCount, Func<FieldValue, T?> read) where T : struct =>
        Items(maxCount) is { } items ? Whole(items.Select(read).ToList(), item => item is not null)?.Select(item => item!.Value).ToList() : null;

    public IReadOnlyList<T>? List<T>(int maxCount, Func<FieldValue, T?> read) where T : class =>
        Items(maxCount) is { } items ? Whole(items.Select(read).ToList(), item => item is not null)?.Select(item => item!).ToList() : null;

    /// <summary>A nested object; a fault if it is none.</summary>
    public FieldReader? Object()
    {
        if (Element.ValueKind is JsonValueKind.Object)
            return new FieldReader(Element, Path, Faults);
        return Refuse<FieldReader>("give an object in braces");
    }

    public void Refuse(string remedy, FaultKind? kind = null) => Faults.Add(Path, $"{Path} is {Shown()}: {remedy}.", kind);

    public T? Refuse<T>(string remedy, FaultKind? kind = null) where T : class
    {
        Refuse(remedy, kind);
        return null;
    }

    public T? RefuseValue<T>(string remedy, FaultKind? kind = null) where T : struct
    {
        Refuse(remedy, kind);
        return null;
    }

    internal static string Shorten(string text)
    {
        var shown = new StringBuilder();
        foreach (var rune in text.EnumerateRunes().Take(ShownLength))
            shown.Append(IsControl(rune, false) ? new Rune('\uFFFD') : rune);
        return text.EnumerateRunes().Count() > ShownLength ? $"{shown}..." : shown.ToString();
    }

    private List<FieldValue>? Items(int maxCount)
    {
        if (Element.ValueKind is not JsonValueKind.Array)
            return Refuse<List<FieldValue>>("give a list in brackets");
        if (Element.GetArrayLength() > maxCount)
            return Refuse<List<FieldValue>>($"give at most {maxCount} items", new FaultKind("many", maxCount.ToString(CultureInfo.InvariantCulture)));
        var (path, faults) = (Path, Faults);
        return [.. Element.EnumerateArray().Select((item, index) => new FieldValue(item, $"{path}[{index}]", faults))];
    }

    private static List<T>? Whole<T>(List<T> items, Predicate<T> sound) => items.TrueForAll(sound) ? items : null;

    private string AsTyped() => Element.ValueKind is JsonValueKind.String ? Element.GetString()! : Element.GetRawText();

    private string Shown() => Element.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => $"a list of {Element.GetArrayLength()}",
        JsonValueKind.String => $"'{Shorten(Element.GetString()!)}'",
        _ => Shorten(Element.GetRawText())
    };

    private static FaultKind Span(string kind, double min, double max, string unit) =>
        new(kind, min.ToString(CultureInfo.InvariantCulture), max.ToString(CultureInfo.InvariantCulture), unit);

    private static string Spaced(string unit) => unit.Length == 0 ? "" : $" {unit}";

    private static bool IsControl(Rune rune, bool lines) => Rune.GetUnicodeCategory(rune) switch
    {
        UnicodeCategory.Control => !(lines && (rune.Value is '\n' or '\r' or '\t')),
        UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator => !lines,
        _ => false
    };
}
