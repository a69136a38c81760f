using System.Text.Json.Nodes;

namespace Scheduler.Service.Pages.Frame;

/// <summary>Numbers in forms in the owner's units, to and from those of the API (C and m).</summary>
public static class OwnerUnits
{
    private const double MetersInFoot = 0.3048;

    public static string? Height(Locale locale, double? meters) => Shown(locale, meters, m => m / MetersInFoot, 0);

    /// <summary>A difference of temperatures [C]: no zero point to move.</summary>
    public static string? Difference(Locale locale, double? celsius) => Shown(locale, celsius, c => c * 9 / 5, 1);

    public static JsonObject HeightToApi(this JsonObject json, Locale locale, string name) => ToApi(json, locale, name, feet => feet * MetersInFoot);

    public static JsonObject DifferenceToApi(this JsonObject json, Locale locale, string name) => ToApi(json, locale, name, f => f * 5 / 9);

    public static JsonObject TemperatureToApi(this JsonObject json, Locale locale, string name) => ToApi(json, locale, name, f => (f - 32) * 5 / 9);

    private static string? Shown(Locale locale, double? value, Func<double, double> imperial, int decimals)
    {
        ArgumentNullException.ThrowIfNull(locale);
        if (value is not { } number)
            return null;
        // Grouping signs would not be read back.
        return Math.Round(locale.IsImperial ? imperial(number) : number, locale.IsImperial ? decimals : 2).ToString("0.##", locale.Culture);
    }

    private static JsonObject ToApi(JsonObject json, Locale locale, string name, Func<double, double> metric)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(locale);
        // What is no number goes on as it was typed, for the API to say so.
        if (locale.IsImperial && json[name] is JsonValue value && value.TryGetValue<double>(out var number))
            json[name] = Math.Round(metric(number), 2);
        return json;
    }
}
