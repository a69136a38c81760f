using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology;

public sealed partial class GrowthOutlookTests
{
    // 1 September to 1 March, so that both axes begin on the same weather; 182 before a leap day.
    private const int AxisShiftDays = 181;
    // Leap days fall on other days of the axis in the south.
    private const int ToleranceDays = 2;

    [Fact]
    public void Band_MadeWeatherHalfAYearLater_SameDatesInTheSouth() =>
        SameHalfAYearLater(MadeWeather.Temperate.Days(First, new LocalDate(2019, 3, 15)), 40, new LocalDate(2019, 3, 1));

    [ReferenceFact]
    public void Band_WashingtonHalfAYearLater_SameDatesInTheSouth() => SameHalfAYearLater(Washington(), 38.885, WashingtonToday);

    private static readonly LocalDate WashingtonToday = new(1991, 3, 1);

    private static TemperatureSeries Washington()
    {
        var weather = ReferencePhenology.Weather("cherry_bloom", "washingtondc");
        return weather.Slice(weather.Start, WashingtonToday.PlusDays(10));
    }

    private static void SameHalfAYearLater(TemperatureSeries days, double latitude, LocalDate today)
    {
        var north = new SiteWeather(latitude, today, days);
        var shifted = new TemperatureSeries(days.Start.PlusDays(AxisShiftDays), days.MinC.ToArray(), days.MaxC.ToArray());
        var south = new SiteWeather(-latitude, today.PlusDays(AxisShiftDays), shifted);
        SeasonEnsemble northSeason = SeasonEnsemble.Build(north, north.CurrentYear), southSeason = SeasonEnsemble.Build(south, south.CurrentYear);

        Assert.Equal(Hemisphere.South, southSeason.Year.Hemisphere);
        foreach (var species in Plants.All)
        {
            GrowthOutlook one = Plants.Outlook(species, northSeason), other = Plants.Outlook(species, southSeason);
            foreach (var code in new[] { 7, 9, 11, 12, 31, 39, 60, 65, 91, 95, 97 })
            {
                DateBand northBand = one.Band(code), southBand = other.Band(code);
                Assert.Equal(northBand.IsExpected, southBand.IsExpected);
                if (!northBand.IsExpected)
                    continue;
                var apart = Period.DaysBetween(northBand.Likely!.Value, southBand.Likely!.Value);
                Assert.True(Math.Abs(apart - AxisShiftDays) <= ToleranceDays, $"{species.Id} {code}: {northBand.Likely:R} and {southBand.Likely:R}");
            }
        }
    }
}
