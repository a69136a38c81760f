using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;
using Xunit.Abstractions;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class LocalThresholdTests(ITestOutputHelper output)
{
    private const int FullBloom = 65;
    private static readonly LocalDate First = new(1990, 7, 1);
    private static readonly LocalDate Last = new(2020, 12, 31);

    [Fact]
    public void Fit_NothingSeen() =>
        Assert.Equal(LocalThreshold.Catalog(Plants.Rules), Fit([]));

    [Fact]
    public void Catalog_SpreadIsPriorAndYearTogether() =>
        Assert.Equal(Math.Sqrt(0.3 * 0.3 + 0.12 * 0.12), LocalThreshold.Catalog(Plants.Rules).Spread, 12);

    [Fact]
    public void Fit_OneSpring_DrawsMostOfTheWayToIt()
    {
        var (site, seen) = Springs(1, lateDays: 10);
        var learned = LocalThreshold.Fit(Plants.Scale(Plants.Maple), site, seen, new GrowthYear(2020, Hemisphere.North));
        var whole = LogRatio(site, seen[0]);

        // One value: F = h / s^2 / (1 / s^2 + 1 / t^2), s 0.12, t 0.3.
        Assert.Equal(whole * (1 / 0.0144) / (1 / 0.0144 + 1 / 0.09), learned.LogFactor, 9);
        Assert.True(learned.LogFactor > 0.1);
        Assert.Equal(1, learned.Springs);
    }

    [Fact]
    public void Fit_MoreSprings_SpreadShrinks()
    {
        var spreads = new[] { 0, 1, 2, 4, 8 }.Select(springs =>
        {
            var (site, seen) = Springs(springs, lateDays: 6);
            return LocalThreshold.Fit(Plants.Scale(Plants.Maple), site, seen, new GrowthYear(2020, Hemisphere.North)).Spread;
        }).ToList();

        Assert.All(spreads.Zip(spreads.Skip(1)), pair => Assert.True(pair.Second < pair.First));
    }

    [Fact]
    public void Fit_OwnSprings_ForecastIsNarrower()
    {
        var (site, seen) = Springs(6, lateDays: 6);
        var now = site with { Today = new LocalDate(2020, 1, 15), Days = site.Days.Slice(First, new LocalDate(2020, 1, 14)) };
        var season = SeasonEnsemble.Build(now, now.CurrentYear);
        var learned = LocalThreshold.Fit(Plants.Scale(Plants.Maple), now, seen, now.CurrentYear);
        var own = new GrowthOutlook(season, Plants.Scale(Plants.Maple), learned, LocalThreshold.Catalog(Plants.Rules), []);

        Assert.True(Width(own.Band(7)) < Width(Plants.Outlook(Plants.Maple, season).Band(7)));
    }

    [Fact]
    public void Fit_LaterSpringsAndAskedOne_NeverRead()
    {
        var (site, seen) = Springs(4, lateDays: 6);
        var year = new GrowthYear(2018, Hemisphere.North);
        var before = seen.Where(phase => phase.Date.Year < 2018);

        Assert.Equal(
            LocalThreshold.Fit(Plants.Scale(Plants.Maple), site, before, year),
            LocalThreshold.Fit(Plants.Scale(Plants.Maple), site, seen, year));
    }

    [Fact]
    public void Fit_TwoCodesOfOneSpring_CountOnce()
    {
        var (site, seen) = Springs(2, lateDays: 6);

        Assert.Equal(2, LocalThreshold.Fit(Plants.Scale(Plants.Maple), site,
            [.. seen, .. seen.Select(phase => new SeenPhase(11, phase.Date.PlusDays(7)))], new GrowthYear(2020, Hemisphere.North)).Springs);
    }

    [Fact]
    public void Fit_OneVeryLateVisitAmongMany_IsDrawnIn()
    {
        var (site, seen) = Springs(7, lateDays: 0);
        var year = new GrowthYear(2020, Hemisphere.North);
        var plain = LocalThreshold.Fit(Plants.Scale(Plants.Maple), site, seen, year);
        seen[3] = seen[3] with { Date = seen[3].Date.PlusDays(35) };
        var late = LocalThreshold.Fit(Plants.Scale(Plants.Maple), site, seen, year);

        // Drawn in to two spreads of 0.12, one spring of seven moves the mean by at most 0.24 / 7.
        Assert.InRange(late.LogFactor - plain.LogFactor, 0.001, 0.24 / 7 + 0.02);
    }

    [Fact]
    public void Fit_SpringWithoutItsWinter_TeachesNothing()
    {
        var (site, seen) = Springs(1, lateDays: 0);
        var cut = site with { Days = site.Days.Slice(new LocalDate(2019, 1, 1), Last) };

        Assert.Equal(0, LocalThreshold.Fit(Plants.Scale(Plants.Maple), cut, seen, new GrowthYear(2020, Hemisphere.North)).Springs);
    }

    [ReferenceFact]
    public void Fit_WashingtonCherry_BeatsTheCalendar()
    {
        var bloom = ReferencePhenology.Dates("cherry_bloom", "washingtondc", "Prunus x yedoensis", "peak_bloom_70pct");
        var weather = ReferencePhenology.Weather("cherry_bloom", "washingtondc");
        var whole = Hindcast(38.885, weather, bloom, Enumerable.Range(1990, 5), null);
        var issued = Hindcast(38.885, weather, bloom, Enumerable.Range(1990, 5), 14);
        var longer = Hindcast(38.885, weather, bloom, Enumerable.Range(1961, 32), null);
        var longerIssued = Hindcast(38.885, weather, bloom, Enumerable.Range(1961, 32), 14);
        Print("1990-1994, whole season's weather", whole);
        Print("1990-1994, issued 14 days before the usual date", issued);
        Print("1961-1992, whole season's weather", longer);
        Print("1961-1992, issued 14 days before the usual date", longerIssued);

        // The published record beside us ends in 1992; years it lacks cannot be asked.
        Assert.True(whole.Count >= 3);
        foreach (var asked in new[] { whole, issued, longer, longerIssued })
            Assert.True(asked.Average(year => Math.Abs(year.ErrorDays)) < asked.Average(year => Math.Abs(year.CalendarErrorDays)));
    }

    [ReferenceFact]
    public void Fit_OtherCherrySites_BeatTheCalendar()
    {
        foreach (var (site, latitude, species, phase) in new[]
        {
            ("kyoto", 35.012, "Prunus jamasakura", "peak_bloom"),
            ("liestal", 47.4814, "Prunus avium", "bloom_25pct"),
        })
        {
            var years = Hindcast(latitude, ReferencePhenology.Weather("cherry_bloom", site),
                ReferencePhenology.Dates("cherry_bloom", site, species, phase), Enumerable.Range(1962, 33), null);
            Print(site, years);
            Assert.NotEmpty(years);
            Assert.True(years.Average(year => Math.Abs(year.ErrorDays)) < years.Average(year => Math.Abs(year.CalendarErrorDays)));
        }
    }

    private sealed record Asked(int Year, LocalDate Seen, DateBand Band, double ErrorDays, double CalendarErrorDays);

    private static List<Asked> Hindcast(
        double latitude, TemperatureSeries weather, IReadOnlyDictionary<int, LocalDate> dates, IEnumerable<int> years, int? leadDays)
    {
        var scale = Plants.Scale(Plants.Cherry);
        var asked = new List<Asked>();
        foreach (var year in years.Where(year => dates.ContainsKey(year) && weather.Has(dates[year])))
        {
            var earlier = dates.Where(date => date.Key < year).Select(date => new SeenPhase(FullBloom, date.Value)).ToList();
            var usual = earlier.Average(phase => phase.Date.DayOfYear);
            var today = leadDays is { } lead ? new LocalDate(year, 1, 1).PlusDays((int)Math.Round(usual) - 1 - lead) : new LocalDate(year, 12, 31);
            var site = new SiteWeather(latitude, today.PlusDays(1), weather.Slice(weather.Start, today));
            var growthYear = new GrowthYear(year, Hemisphere.North);
            var flower = LocalThreshold.Fit(scale, site, earlier, growthYear);
            var outlook = new GrowthOutlook(SeasonEnsemble.Build(site, growthYear), scale, LocalThreshold.Catalog(Plants.Rules), flower, []);
            var band = outlook.Band(FullBloom);
            asked.Add(new Asked(year, dates[year], band, Period.DaysBetween(dates[year], band.Likely!.Value), usual - dates[year].DayOfYear));
        }
        return asked;
    }

    private void Print(string title, List<Asked> asked)
    {
        var covered = asked.Count(year => year.Band.Early <= year.Seen && !(year.Band.Late < year.Seen));
        output.WriteLine($"{title}: {asked.Count} years, MAE {asked.Average(year => Math.Abs(year.ErrorDays)):F2} d, "
            + $"bias {asked.Average(year => year.ErrorDays):F1} d, "
            + $"calendar mean's MAE {asked.Average(year => Math.Abs(year.CalendarErrorDays)):F2} d, within early-late {covered}");
        foreach (var year in asked.Where(year => year.Year >= 1990))
        {
            output.WriteLine($"  {year.Year}: seen {year.Seen:R}, forecast {year.Band.Early:R} / {year.Band.Likely:R} / {year.Band.Late:R}, "
                + $"calendar off by {year.CalendarErrorDays:F1}");
        }
    }

    // The last springs before 2020, each seen some days after the catalog's own date for that spring.
    private static (SiteWeather Site, List<SeenPhase> Seen) Springs(int count, int lateDays)
    {
        var site = MadeWeather.Temperate.Site(First, Last, Last.PlusDays(1));
        var seen = Enumerable.Range(2020 - count, count).Select(year =>
        {
            var season = SeasonEnsemble.Build(site, new GrowthYear(year, Hemisphere.North));
            return new SeenPhase(7, Plants.Outlook(Plants.Maple, season).Band(7).Likely!.Value.PlusDays(lateDays));
        });
        return (site, seen.ToList());
    }

    private static double LogRatio(SiteWeather site, SeenPhase seen)
    {
        var year = GrowthYear.Of(seen.Date, Hemisphere.North);
        var days = site.Days.Slice(year.ChillStart, year.AxisEnd);
        var warmth = Enumerable.Range(0, days.Count)
            .Where(day => year.DateOf(day) >= year.HeatStart && year.DateOf(day) <= seen.Date)
            .Sum(day => (year.DateOf(day) == seen.Date ? 0.5 : 1)
                * Math.Max(0, (days.MinC[day] + days.MaxC[day]) / 2 - 5)
                * Math.Pow(DayLength.ForsytheHours(site.Latitude, year.DateOf(day).DayOfYear) / 12, 3));
        return Math.Log(warmth / 105);
    }

    private static LocalThreshold Fit(IEnumerable<SeenPhase> seen) =>
        LocalThreshold.Fit(Plants.Scale(Plants.Maple), MadeWeather.Temperate.Site(First, Last, Last), seen, new GrowthYear(2020, Hemisphere.North));

    private static int Width(DateBand band) => Period.DaysBetween(band.Early!.Value, band.Late!.Value);
}
