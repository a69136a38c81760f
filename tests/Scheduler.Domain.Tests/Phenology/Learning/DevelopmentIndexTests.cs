using CsCheck;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology.Learning;

public class DevelopmentIndexTests
{
    private static readonly IndexShape Plain = new(5, 0, 60, 0);
    private static readonly GrowthYear Year = new(2021, Hemisphere.North);

    [Fact]
    public void Index_OfConstantWarmth_IsTheLogarithmOfItsSum()
    {
        // 10 C all day above a base of 5 gives 5 C*d a day: by hand, half way through the tenth day the index lies between
        // ln(1 + 45) and ln(1 + 50).
        var season = Constant(10);
        var index = DevelopmentIndex.At(season, Plain, 100, 109);
        Assert.Equal((Math.Log(46) + Math.Log(51)) / 2, index, 9);
    }

    [Fact]
    public void Crossing_OfTheIndexSeenOnADay_IsThatDay()
    {
        var season = Constant(10);
        var seen = DevelopmentIndex.At(season, Plain, 100, 140);
        Assert.Equal(140, DevelopmentIndex.Crossing(season, Plain, 100, seen), 0.02);
    }

    [Fact]
    public void Crossing_ThatNeverComes_IsInfinite() =>
        Assert.Equal(double.PositiveInfinity, DevelopmentIndex.Crossing(Constant(3), Plain, 100, 4));

    [Fact]
    public void Crossing_JoinedWithATrace_UsesKnownDaysThenTheTrace()
    {
        SeasonDrivers cold = Constant(4), warm = Constant(10);
        // Nothing until day 150, then 5 C*d a day: ln(1 + 50) is reached ten days on.
        Assert.Equal(159.5, DevelopmentIndex.Crossing(cold, warm, 149, Plain, 100, Math.Log(51)), 0.6);
    }

    [Fact]
    public void Crossing_AfterMoreWarmth_IsNeverLater() =>
        Gen.Select(Gen.Double[-5, 15].Array[365], Gen.Double[0, 4], Gen.Int[0, 2]).Sample((means, warmer, which) =>
        {
            var shape = ClockRules.Developed.Trees.Shapes[which] with { ChillRate = 0 };
            var colder = DevelopmentIndex.Crossing(Of(means), shape, 120, 5);
            var after = DevelopmentIndex.Crossing(Of([.. means.Select((mean, day) => day > 120 ? mean + warmer : mean)]), shape, 120, 5);
            return after <= colder + 1e-9;
        }, iter: 50);

    [Fact]
    public void FixedStart_TooNearTheUsualDate_DoesNotFit()
    {
        var fixedStart = new IndexShape(6, 0, null, 0.01);
        Assert.False(fixedStart.Fits(180));
        Assert.True(fixedStart.Fits(190));
        Assert.Equal(153, fixedStart.StartDay(190));
        Assert.Equal(Year.DayOf(new LocalDate(2021, 2, 1)), fixedStart.StartDay(190));
    }

    private static SeasonDrivers Constant(double meanC) => Of([.. Enumerable.Repeat(meanC, Year.Days)]);

    private static SeasonDrivers Of(double[] means)
    {
        var all = means.Concat(Enumerable.Repeat(means[^1], Math.Max(0, Year.Days - means.Length))).ToArray();
        return SeasonDrivers.Of(Year, 50, new TemperatureSeries(Year.ChillStart, all, all));
    }
}
