using System.Globalization;
using System.Text.Json;
using NodaTime.Text;

namespace Scheduler.Service.Pages.Frame;

/// <summary>
/// Says the API's faults in the owner's language and units, by their kind. Kinds without words of their own stay in the API's English; so
/// do refusals as a whole.
/// </summary>
public static class FaultWords
{
    private static readonly string[] Known =
    [
        "missing", "long", "characters", "number", "whole", "date", "late", "early", "choice", "unknown", "address", "url", "time", "same-times", "none-chosen",
        "hardiness", "swapped", "twice", "nothing-said"
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
            "long" => page["FieldFault.long", values[0]],
            "number" => page["FieldFault.number", Amount(page.Locale, field, values[0], values[2]), Amount(page.Locale, field, values[1], values[2])],
            "whole" => page["FieldFault.whole", values[0], values[1]],
            "late" or "early" => page["FieldFault." + kind, page.Locale.Date(LocalDatePattern.Iso.Parse(values[0]).Value)],
            "unknown" when values.Length > 0 => page["FieldFault.unknown", string.Join(", ", values)],
            "unknown" => page["FieldFault.choice"],
            _ => page["FieldFault." + kind]
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
