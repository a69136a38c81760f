using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;
using Xunit.Abstractions;

namespace Scheduler.Domain.Tests.Phenology;

/// <summary>The plain degree-day form and the published one, and how the growth clock compares with them.</summary>
public sealed class ReferenceFormsTests(ITestOutputHelper output)
{
    // At the standard temperature a day counts one; by hand at 10 C: exp(17000 * -15 / (1.9872 * 283.15 * 298.15)) = exp(-1.52002).
    [Theory]
    [InlineData(25, 1)]
    [InlineData(10, 0.21871)]
    [InlineData(35, 2.53737)]
    public void StandardTemperatureDays_OfDay(double meanC, double days) => Assert.Equal(days, StandardTemperatureDays.OfDay(meanC), 3);

    [Fact]
    public void ThermalTime_ByHand()
    {
        double[] minC = [10, 0, 4, double.NaN, 10], maxC = [20, 4, 12, double.NaN, 30];

        Assert.Equal([0, 0, 3, 3, 18], ThermalTime.Gathered(minC, maxC, 1, 5));
        Assert.Equal((2, 4, (int?)null), (ThermalTime.DayOf([0, 0, 3, 3, 18], 3), ThermalTime.DayOf([0, 0, 3, 3, 18], 3.1), ThermalTime.DayOf([0, 0, 3, 3, 18], 19)));
    }

    // Each spring from 1961 to 1992 with its own weather known, needs and thresholds from earlier springs only.
    [ReferenceFact]
    public void WashingtonCherry_ClockBeatsBothForms()
    {
        var bloom = ReferencePhenology.Dates("cherry_bloom", "washingtondc", "Prunus x yedoensis", "peak_bloom_70pct");
        var weather = ReferencePhenology.Weather("cherry_bloom", "washingtondc");
        var heat = Errors(bloom, weather, (season, start) => ThermalTime.Gathered(season.MinC, season.MaxC, start, 5));
        var standard = Errors(bloom, weather, (season, start) =>
            StandardTemperatureDays.Gathered(season.MinC, season.MaxC, start + StandardTemperatureDays.StartDayOfYear - 1));
        var clock = new List<double>();
        foreach (var year in Enumerable.Range(1961, 32))
        {
            var growthYear = new GrowthYear(year, Hemisphere.North);
            var site = new SiteWeather(38.885, growthYear.AxisEnd.PlusDays(1), weather.Slice(weather.Start, growthYear.AxisEnd));
            var earlier = bloom.Where(date => date.Key < year).Select(date => new SeenPhase(65, date.Value));
            var likely = Plants.Learned(Plants.Cherry, SeasonEnsemble.Build(site, growthYear), earlier).Band(65).Likely!.Value;
            clock.Add(Math.Abs(Period.DaysBetween(bloom[year], likely)));
        }
        output.WriteLine($"Mean absolute error 1961-1992: degree-days {heat.Average():F2} d, standard temperature days {standard.Average():F2} d, clock {clock.Average():F2} d");

        Assert.Equal((32, 32), (heat.Count, standard.Count));
        Assert.True(clock.Average() < heat.Average() && clock.Average() < standard.Average());
    }

    private static List<double> Errors(
        IReadOnlyDictionary<int, LocalDate> bloom, TemperatureSeries weather, Func<TemperatureSeries, int, double[]> gathered)
    {
        var needs = new List<double>();
        var errors = new List<double>();
        foreach (var (year, date) in bloom.OrderBy(date => date.Key))
        {
            var axis = new GrowthYear(year, Hemisphere.North);
            var season = weather.Slice(axis.ChillStart, axis.AxisEnd);
            if (season.Gaps.Sum(gap => gap.Length) > 10)
                continue;
            var total = gathered(season, axis.HeatStartDay);
            if (year is >= 1961 and <= 1992)
                errors.Add(Math.Abs(ThermalTime.DayOf(total, needs.Average())!.Value - axis.DayOf(date)));
            needs.Add(total[axis.DayOf(date)]);
        }
        return errors;
    }
}
