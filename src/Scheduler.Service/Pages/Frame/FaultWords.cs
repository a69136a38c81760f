using System.Globalization;
using System.Text.Json;
using NodaTime.Text;

namespace Scheduler.Service.Pages.Frame;

/// <summary>
/// Says the API's faults and refusals in the owner's language and units, by their kind. Kinds without words of their own stay in the API's
/// English.
/// </summary>
public static class FaultWords
{
    private static readonly string[] Known =
    [
        "missing", "long", "characters", "number", "whole", "date", "late", "early", "choice", "unknown", "address", "url", "time", "same-times", "none-chosen",
        "hardiness", "swapped", "twice", "nothing-said", "duration", "many", "phase-or-bbch", "no-modes", "subscription", "bare-url"
    ];

    /// <summary>Null: no words for it.</summary>
    public static string? Of(PageContext page, string field, JsonElement fault)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(field);
        var kind = fault.GetProperty("kind").GetString()!;
        if (!Known.Contains(kind))
            return null;
        var values = fault.GetProperty("values").EnumerateArray().Select(value => value.GetString()!).ToArray();
        return kind switch
        {
            "long" or "many" => page["FieldFault." + kind, values[0]],
            "number" => page["FieldFault.number", Amount(page.Locale, field, values[0], values[2]), Amount(page.Locale, field, values[1], values[2])],
            "whole" => page["FieldFault.whole", values[0], values[1]],
            "late" or "early" => page["FieldFault." + kind, page.Locale.Date(LocalDatePattern.Iso.Parse(values[0]).Value)],
            "unknown" when values.Length > 0 => page["FieldFault.unknown", string.Join(", ", values)],
            "unknown" => page["FieldFault.choice"],
            _ => page["FieldFault." + kind]
        };
    }

    /// <summary>Why something was refused as a whole; null: no words for it.</summary>
    public static string? Refusal(PageContext page, int status, JsonElement? body)
    {
        ArgumentNullException.ThrowIfNull(page);
        if (body?.TryGetProperty("kind", out var kind) == true)
            return page.Find("Refusal." + kind.GetProperty("kind").GetString(), [.. kind.GetProperty("values").EnumerateArray().Select(value => value.GetString()!)]);
        return status switch
        {
            StatusCodes.Status404NotFound => page["Missing.Text"],
            StatusCodes.Status413PayloadTooLarge => page["Refusal.large"],
            StatusCodes.Status429TooManyRequests => page["Fault.often.Text"],
            >= 500 => page["Fault.own.Text"],
            _ => null
        };
    }

    private static string Amount(Locale locale, string field, string value, string unit)
    {
        var number = double.Parse(value, CultureInfo.InvariantCulture);
        return unit switch
        {
            "°C" when field.EndsWith("OffsetC", StringComparison.Ordinal) => locale.IsImperial ? $"{locale.Number(number * 9 / 5)} °F" : $"{locale.Number(number)} °C",
            "°C" => locale.Temperature(number),
            "m" => locale.Height(number),
            "cm" or "mm" or "%" => $"{locale.Number(number)} {unit}",
            _ => locale.Number(number)
        };
    }
}
