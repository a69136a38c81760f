using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Service.Pages.Frame;

namespace Scheduler.Service.Pages.Season;

/// <summary>What a season's figures mean, in words.</summary>
internal static class SeasonWords
{
    /// <summary>One degree Celsius in degrees Fahrenheit.</summary>
    private const double FahrenheitPerCelsius = 1.8;

    public static string Early(PageContext page, SeasonForecast forecast) => Early(page, forecast.DaysEarly is { } days ? (int)Math.Round(days) : null);

    public static string Early(PageContext page, int? days) => days switch
    {
        null => page["Season.Early.Unknown"],
        0 => page["Season.Early.Same"],
        1 => page["Season.Early.Day"],
        -1 => page["Season.Late.Day"],
        > 0 => page["Season.Early.Days", days],
        _ => page["Season.Late.Days", -days]
    };

    /// <summary>How far a phase is ahead of its usual date [d].</summary>
    public static int? DaysEarly(PhaseForecast phase) =>
        phase is { Normal: { } normal, Band.Likely: { } likely } ? Period.DaysBetween(likely, normal) : null;

    /// <summary>"1996 to 2025 (30 years)"; null: no year is known.</summary>
    public static string? NormalYears(PageContext page, SeasonForecast forecast) => forecast.NormalYears.Count switch
    {
        0 => null,
        1 => page["Season.NormalYear", forecast.NormalYears[0]],
        var count => page["Season.NormalYears", forecast.NormalYears[0], forecast.NormalYears[^1], count]
    };

    public static double HeatFactor(Locale locale) => locale.IsImperial ? FahrenheitPerCelsius : 1;

    public static string HeatUnit(PageContext page) => page.Locale.IsImperial ? page["Season.HeatUnitF"] : page["Season.HeatUnitC"];

    public static string Heat(PageContext page, double heatCd) => page.Locale.Number(heatCd * HeatFactor(page.Locale));

    /// <summary>"12 Apr (5 to 20 Apr)", the day it was reached, or why there is none.</summary>
    public static string When(PageContext page, PhaseForecast phase, LocalDate today) => phase switch
    {
        { ReachedOn: { } day, Seen: true } => page["Season.Phase.Seen", page.Locale.Day(day, today)],
        { ReachedOn: { } day } => page["Season.Phase.Past", page.Locale.Day(day, today)],
        { Band: { Early: { } early, Likely: { } likely, Late: { } late } } =>
            page["Season.Phase.Ahead", page.Locale.Day(likely, today), page.Locale.Day(early, today), page.Locale.Day(late, today)],
        { Band: { Early: { } early, Likely: { } likely } } => page["Season.Phase.AheadOpen", page.Locale.Day(likely, today), page.Locale.Day(early, today)],
        _ => page["Season.Phase.NotExpected"]
    };
}
