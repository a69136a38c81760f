using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;
using Scheduler.Service.Tests.Catalog;

namespace Scheduler.Service.Tests.Rules;

/// <summary>
/// Real northern temperatures, moved by half a year under the mirrored latitude, give the same dates half a year later for
/// every species of the catalog; so do years with and without a leap day and series with gaps.
/// </summary>
public class CatalogHemispheresTests
{
    // From 1 September to 1 March: the days by which the southern axis lies later.
    private const int HalfAYear = 181;
    private const int NearDays = 45;
    private const int MostWhenNear = 13;
    private static readonly int[] Codes = [1, 3, 7, 9, 10, 11, 12, 31, 39, 55, 60, 65, 69, 91, 93, 97];

    [ReferenceTheory]
    [InlineData("washingtondc", 38.885, 1991)]
    [InlineData("washingtondc", 38.885, 1988)]
    [InlineData("kyoto", 35.012, 1990)]
    [InlineData("liestal", 47.4814, 1992)]
    public void EverySpecies_HalfAYearLaterInTheSouth(string id, double latitude, int year)
    {
        var weather = ReferencePhenology.Weather("cherry_bloom", id);
        var today = new LocalDate(year, 3, 1);
        var days = weather.Slice(LocalDate.Max(weather.Start, today.PlusYears(-32)), today.PlusDays(9));
        var shifted = new TemperatureSeries(days.Start.PlusDays(HalfAYear), days.MinC.ToArray(), days.MaxC.ToArray());
        Dictionary<(string, int), DateBand> north = Bands(new SiteWeather(latitude, today, days)), south = Bands(new SiteWeather(-latitude, today.PlusDays(HalfAYear), shifted));

        Assert.Contains(north.Values, band => band.IsExpected);
        var apart = new List<string>();
        foreach (var (key, band) in north)
        {
            Assert.True(band.IsExpected == south[key].IsExpected, $"{key}");
            // In the first weeks of the heat year next to no warmth is gathered: a leap day that falls elsewhere moves more there.
            var most = band.Likely < new LocalDate(year, 1, 22) ? 3 : 2;
            if (band.IsExpected && Math.Abs(Period.DaysBetween(band.Likely!.Value, south[key].Likely!.Value) - HalfAYear) > most)
                apart.Add($"{key}: {band.Likely:R} and {south[key].Likely:R}");
        }
        Assert.True(apart.Count == 0, string.Join('\n', apart));
    }

    [ReferenceFact]
    public void EverySpecies_GapsOfOneToThirtyDaysAndAMissingMonth_HardlyMoveTheDates()
    {
        var weather = ReferencePhenology.Weather("cherry_bloom", "washingtondc");
        var today = new LocalDate(1991, 3, 1);
        var whole = weather.Slice(new LocalDate(1960, 1, 1), today.PlusDays(-1));
        var expected = Bands(new SiteWeather(38.885, today, whole));
        var apart = new List<string>();
        var compared = 0;
        foreach (var (length, most) in new[] { (1, 1), (3, 2), (10, 4), (30, 8) })
        {
            foreach (var from in new[] { new LocalDate(1990, 11, 10), new LocalDate(1991, 1, 20), new LocalDate(1980, 4, 1) })
            {
                var bands = Bands(new SiteWeather(38.885, today, Without(whole, from, length)));
                foreach (var (key, band) in expected.Where(pair => pair.Value.IsExpected && pair.Key.Item2 is >= 7 and < 90))
                {
                    Assert.True(bands[key].IsExpected, $"{key}, {length} days from {from:R}");
                    // Days lost just before a phase are lost evidence; what comes later must hardly notice.
                    var isNear = from.PlusDays(length + NearDays) > band.Likely && from < band.Likely;
                    var days = Math.Abs(Period.DaysBetween(band.Likely!.Value, bands[key].Likely!.Value));
                    compared++;
                    Assert.True(days <= Math.Max(MostWhenNear, most), $"{key}, {length} days from {from:R}: {days} days");
                    if (days > (isNear ? MostWhenNear : most))
                        apart.Add($"{key}, {length} days from {from:R}: {band.Likely:R} and {bands[key].Likely:R}");
                }
            }
        }
        // A median may leap over a cold spell in which nothing grows; that is rare.
        Assert.True(apart.Count * 100 < compared, string.Join('\n', apart));
    }

    // The same temperatures on every 365-day round: a year with 29 February gives the same dates within the day it adds.
    [Fact]
    public void EverySpecies_LeapYearAndOrdinaryYear_SameDates()
    {
        var climate = new MadeClimate(47, new LocalDate(2024, 3, 1));
        Dictionary<(string, int), DateBand> leap = Bands(climate.Site()), plain = Bands(new MadeClimate(47, new LocalDate(2023, 3, 1)).Site());
        foreach (var (key, band) in leap)
        {
            Assert.Equal(band.IsExpected, plain[key].IsExpected);
            if (band.IsExpected)
                Assert.InRange(Period.DaysBetween(plain[key].Likely!.Value.PlusYears(1), band.Likely!.Value), -3, 3);
        }
    }

    private static Dictionary<(string, int), DateBand> Bands(SiteWeather site)
    {
        var season = SeasonEnsemble.Build(site, site.CurrentYear);
        var clock = GardenClock.OfCatalog(new SiteSprings(season), ShippedCatalog.Content.GrowthRules, ShippedCatalog.Content.ClockRules);
        var bands = new Dictionary<(string, int), DateBand>();
        foreach (var species in ShippedCatalog.Content.Species.Values)
        {
            var outlook = new GrowthOutlook(season, clock.Of(species), []);
            foreach (var code in Codes)
                bands[(species.Id, code)] = outlook.Band(code);
        }
        return bands;
    }

    private static TemperatureSeries Without(TemperatureSeries days, LocalDate from, int length)
    {
        double[] minC = days.MinC.ToArray(), maxC = days.MaxC.ToArray();
        var start = days.IndexOf(from);
        minC.AsSpan(start, length).Fill(double.NaN);
        maxC.AsSpan(start, length).Fill(double.NaN);
        return new TemperatureSeries(days.Start, minC, maxC);
    }
}
