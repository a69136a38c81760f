using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Tests.Rules;

/// <summary>
/// An invented climate, the same every year, laid around one day: cold, then a spring of even warmth, then even warmth
/// until frost. Heat to come, days to frost and heat since an event come out as asked for.
/// </summary>
internal sealed record MadeSeason
{
    public double Latitude { get; init; } = 47;
    public required LocalDate Today { get; init; }
    /// <summary>Days from today to the first frost; null: no frost in the year.</summary>
    public int? DaysToFrost { get; init; }
    /// <summary>How long it has been warm.</summary>
    public int WarmDays { get; init; } = 40;
    public double HeatBeforeCd { get; init; } = 10;
    public double HeatAfterCd { get; init; } = 10;
    /// <summary>How many days the warmth lasts from today on; then it is mild without heat above 10.</summary>
    public double HeatAfterDays { get; init; } = 1000;
    public double MildHeatCd { get; init; } = 5;
    public double WinterMeanC { get; init; } = 4;

    public GrowthYear Year => GrowthYear.Of(Today, Hemisphere.OfLatitude(Latitude));

    public SiteWeather Site()
    {
        var from = Year.ChillStart.PlusYears(-11);
        var to = Today.PlusDays(1);
        return new SiteWeather(Latitude, Today, TemperatureSeries.From(Enumerable.Range(0, Period.DaysBetween(from, to))
            .Select(day => Day(from.PlusDays(day)))));
    }

    public DailyTemperature Day(LocalDate date)
    {
        var r = FromToday(date);
        var mean = Mean(r);
        var isFrost = DaysToFrost is { } frost && (r >= frost || r < -WarmDays);
        var min = isFrost ? Math.Min(mean - 4, -1) : Math.Max(mean - 4, 0.5);
        return new DailyTemperature(date, min, 2 * mean - min);
    }

    // Days from this year's today, between half a year back and half a year on.
    private int FromToday(LocalDate date)
    {
        var years = date.Year - Today.Year;
        var r = int.MaxValue;
        for (var year = years - 1; year <= years + 1; year++)
        {
            var days = Period.DaysBetween(Today.PlusYears(year), date);
            if (Math.Abs(days) < Math.Abs(r) || days == -r && days > 0)
                r = days;
        }
        return r;
    }

    private double Mean(int r)
    {
        if (r < -WarmDays || DaysToFrost is { } frost && r >= frost)
            return WinterMeanC;
        if (r < 0)
            return 5 + HeatBeforeCd;
        return r < Math.Floor(HeatAfterDays) ? 5 + HeatAfterCd
            : r == Math.Floor(HeatAfterDays) ? 10 + (HeatAfterCd - 5) * (HeatAfterDays - Math.Floor(HeatAfterDays)) : 5 + MildHeatCd;
    }
}
