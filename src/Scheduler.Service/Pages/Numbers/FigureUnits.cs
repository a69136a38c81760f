using System.Text.Json;
using Scheduler.Service.Pages.Frame;

namespace Scheduler.Service.Pages.Numbers;

/// <summary>What a figure of the catalog is measured in; its name ends in it.</summary>
internal enum FigureUnit { None, DegreeDays, Percent, Millimeters, Centimeters, Celsius, Meters, Days }

/// <summary>Figures of the catalog as the owner reads numbers and units. Citations stay as they were printed.</summary>
internal sealed class FigureUnits(Locale locale)
{
    private static readonly (string Ending, FigureUnit Unit)[] Endings =
    [
        ("Cd", FigureUnit.DegreeDays), ("Percent", FigureUnit.Percent), ("Mm", FigureUnit.Millimeters), ("Cm", FigureUnit.Centimeters), ("C", FigureUnit.Celsius),
        ("M", FigureUnit.Meters), ("Days", FigureUnit.Days)
    ];

    /// <summary>"budBreakCd" is "bud break" in degree-days.</summary>
    public static (string Name, FigureUnit Unit) Named(string name)
    {
        var (ending, unit) = Endings.FirstOrDefault(one => name.Length > one.Ending.Length && name.EndsWith(one.Ending, StringComparison.Ordinal));
        var bare = ending is null ? name : name[..^ending.Length];
        var words = string.Concat(bare.Select(letter => char.IsAsciiLetterUpper(letter) ? $" {char.ToLowerInvariant(letter)}" : letter.ToString())).Replace('-', ' ').Trim();
        return (words, unit);
    }

    /// <summary>A number without its unit.</summary>
    public string Number(double value, FigureUnit unit) => (unit, locale.IsImperial) switch
    {
        (FigureUnit.DegreeDays, true) => Plain(value * 9 / 5, 0),
        (FigureUnit.Celsius, true) => Plain(value * 9 / 5 + 32, 1),
        (FigureUnit.Millimeters, true) => Plain(value / 25.4, 2),
        (FigureUnit.Centimeters, true) => Plain(value / 2.54, 1),
        (FigureUnit.Meters, true) => Plain(value / 0.3048, 0),
        _ => Plain(value, 4)
    };

    /// <summary>The sign after a number, with the blank before it.</summary>
    public string Sign(FigureUnit unit) => (unit, locale.IsImperial) switch
    {
        (FigureUnit.DegreeDays, false) => " °C·d",
        (FigureUnit.DegreeDays, true) => " °F·d",
        (FigureUnit.Percent, _) => " %",
        (FigureUnit.Millimeters, false) => " mm",
        (FigureUnit.Centimeters, false) => " cm",
        (FigureUnit.Millimeters or FigureUnit.Centimeters, true) => " in",
        (FigureUnit.Celsius, false) => " °C",
        (FigureUnit.Celsius, true) => " °F",
        (FigureUnit.Meters, false) => " m",
        (FigureUnit.Meters, true) => " ft",
        (FigureUnit.Days, _) => " days",
        _ => ""
    };

    /// <summary>Whatever stands in a rule, in one line.</summary>
    /// <param name="unit">That of the name it stands under.</param>
    public string Compact(JsonElement element, FigureUnit unit) => element.ValueKind switch
    {
        JsonValueKind.Object => string.Join(", ", element.EnumerateObject().Select(field => (field.Name, Text: Compact(field.Value, UnitWithin(field.Name, unit))))
            .Where(field => field.Text.Length > 0).Select(field => $"{Named(field.Name).Name} {field.Text}")),
        JsonValueKind.Array => string.Join(" / ", element.EnumerateArray().Select(item => Compact(item, unit)).Where(text => text.Length > 0)),
        JsonValueKind.Number => Number(element.GetDouble(), unit) + Sign(unit),
        JsonValueKind.String => locale.Told(element.GetString()!),
        JsonValueKind.True => "yes",
        _ => ""
    };

    // A heat sum names its base and its bounds: {"heatCd": {"base": 5, "min": 120}}.
    private static FigureUnit UnitWithin(string name, FigureUnit outer) =>
        Named(name).Unit is not FigureUnit.None and var own ? own : outer is FigureUnit.DegreeDays && name == "base" ? FigureUnit.Celsius : outer;

    private string Plain(double value, int decimals) => Math.Round(value, decimals).ToString("0.####", locale.Culture);
}
