using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology;

public sealed partial class GrowthOutlookTests
{
    // 1 September to 1 March, so that both axes begin on the same weather; 182 before a leap day.
    private const int AxisShiftDays = 181;
    // The sun's halves are unequal: 186 days from the March to the September equinox, 182 from the December to the June solstice.
    private const int SunShiftDays = 184;
    private const double EvenDaysLatitude = 0.01;

    // Near the equator days are alike all year, so only the axis is left to differ: by the one day that a leap year shifts it.
    [Fact]
    public void Band_MadeWeatherHalfAYearLaterUnderEvenDays_SameDatesInTheSouth() =>
        SameHalfAYearLater(MadeWeather.Temperate.Days(First, new LocalDate(2019, 3, 15)), EvenDaysLatitude, new LocalDate(2019, 3, 1), AxisShiftDays, 1);

    [Fact]
    public void Band_MadeWeatherHalfAYearLater_SameDatesInTheSouth() =>
        SameHalfAYearLater(MadeWeather.Temperate.Days(First, Today.PlusDays(14)), 40, Today, SunShiftDays, 3);

    [ReferenceFact]
    public void Band_WashingtonHalfAYearLaterUnderEvenDays_SameDatesInTheSouth() =>
        SameHalfAYearLater(Washington(), EvenDaysLatitude, WashingtonToday, AxisShiftDays, 1);

    // Those uneven halves of the sun's year decide here whether a mild week counts before or after a cool one.
    [ReferenceFact]
    public void Band_WashingtonHalfAYearLater_NearlyTheSameDatesInTheSouth() =>
        SameHalfAYearLater(Washington(), 38.885, WashingtonToday, AxisShiftDays, 7);

    private static readonly LocalDate WashingtonToday = new(1991, 3, 1);

    private static TemperatureSeries Washington()
    {
        var weather = ReferencePhenology.Weather("cherry_bloom", "washingtondc");
        return weather.Slice(weather.Start, WashingtonToday.PlusDays(10));
    }

    private static void SameHalfAYearLater(TemperatureSeries days, double latitude, LocalDate today, int shiftDays, int toleranceDays)
    {
        var north = new SiteWeather(latitude, today, days);
        var shifted = new TemperatureSeries(days.Start.PlusDays(shiftDays), days.MinC.ToArray(), days.MaxC.ToArray());
        var south = new SiteWeather(-latitude, today.PlusDays(shiftDays), shifted);
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
                Assert.True(Math.Abs(apart - shiftDays) <= toleranceDays, $"{species.Id} {code}: {northBand.Likely:R} and {southBand.Likely:R}");
            }
        }
    }
}
