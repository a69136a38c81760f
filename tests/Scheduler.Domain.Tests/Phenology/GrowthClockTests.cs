using CsCheck;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class GrowthClockTests
{
    private static readonly GrowthYear Year = new(2023, Hemisphere.North);
    private static readonly SeasonLight Equator = new(0, Year);
    private static readonly SeasonLight Middle = new(45, Year);

    // 1 + 0.9 * max(0, 1 - portions / 40), by hand.
    [Theory]
    [InlineData(0, 1.9)]
    [InlineData(10, 1.675)]
    [InlineData(20, 1.45)]
    [InlineData(40, 1)]
    [InlineData(80, 1)]
    public void ChillFactor_Maple(double portions, double factor) =>
        Assert.Equal(factor, GrowthClock.ChillFactor(Plants.Scale(Plants.Maple), portions), 9);

    [Fact]
    public void ChillFactor_NoNeed() => Assert.Equal(1, GrowthClock.ChillFactor(Plants.Scale(Plants.Fig), 0));

    // Cold until day 200, then 15 C: ten plain degree-days a day times the day-length weight. 104.5 C*d at about 1 each fall on the 11th day.
    [Fact]
    public void DayFromHeatStart_StepOfWarmth_CountsWeightedDays()
    {
        var member = Step(200, 15, Equator);
        var weight = Equator.WarmthWeight[205];

        Assert.Equal(200 + 104.5 / (10 * weight), GrowthClock.DayFromHeatStart(Plants.Scale(Plants.Maple), Year, member, 104.5, 1), 0.01);
        Assert.Equal(200 + 209 / (10 * weight), GrowthClock.DayFromHeatStart(Plants.Scale(Plants.Maple), Year, member, 104.5, 2), 0.03);
    }

    // Days of 15 to 25 C add no chill, so half the need stays half: 1 + 0.9 * 0.5 = 1.45 times the heat, so 145 at 15 a day.
    [Fact]
    public void DayFromHeatStart_HalfTheChill_NeedsHeatByTheFactor()
    {
        var member = Step(200, 20, Equator);
        var portions = member.ChillPortions[205];
        Assert.Equal(portions, member.ChillPortions[220]);
        var times = Plants.Maple.ThermalTimes with { ChillPortions = new Figure(2 * portions, Provenance.Estimate) };
        var scale = Plants.Scale(Plants.Maple with { ThermalTimes = times });

        Assert.Equal(200 + 145 / (15 * Equator.WarmthWeight[205]), GrowthClock.DayFromHeatStart(scale, Year, member, 100, 1), 0.02);
    }

    [Fact]
    public void DayFromHeatStart_HardlyAnyChill_NeverComes() =>
        Assert.True(double.IsPositiveInfinity(
            GrowthClock.DayFromHeatStart(Plants.Scale(Plants.Maple), Year, Step(0, 20, Equator), 105, 1)));

    [Fact]
    public void DayFromHeatStart_EarlyWarmthThenLateChill_WaitsForChill()
    {
        // Warm until 20 January, cold until mid April, warm again: heat suffices long before the least chill is there.
        double[] minC = new double[Year.Days], maxC = new double[Year.Days];
        for (var day = 0; day < Year.Days; day++)
            (minC[day], maxC[day]) = day is >= 142 and < 225 ? (1, 9) : (18, 24);
        var member = new SeasonMember(2023, minC, maxC, Middle);
        var day1 = GrowthClock.DayFromHeatStart(Plants.Scale(Plants.Maple), Year, member, 105, 1);

        Assert.True(member.SpringWarmthCd[141] > 105 && member.ChillPortions[141] < 12);
        Assert.InRange(day1, 150, 240);
    }

    [Fact]
    public void DayFromHeatStart_TooCool_NeverComes() =>
        Assert.True(double.IsPositiveInfinity(
            GrowthClock.DayFromHeatStart(Plants.Scale(Plants.Maple), Year, Step(200, 4.9, Middle), 105, 1)));

    [Fact]
    public void DayFromHeatStart_ChillMet_MoreHeatNeverDelays()
    {
        var gen = Gen.Select(Gen.Double[-4, 4].Array[Year.Days], Gen.Double[2, 14], Gen.Int[0, 120], Gen.Int[1, 90], Gen.Double[0, 12]);
        gen.Sample((noise, meanC, after, length, warmerC) =>
        {
            var plain = Noisy(noise, meanC, (0, 0, 0));
            var scale = Plants.Scale(Plants.Maple);
            var met = Array.FindIndex(plain.ChillPortions, portions => portions >= 40);
            if (met < 0)
                return true;
            var warmer = Noisy(noise, meanC, (met + 1 + after, length, warmerC));
            return GrowthClock.DayFromHeatStart(scale, Year, warmer, 105, 1) <= GrowthClock.DayFromHeatStart(scale, Year, plain, 105, 1);
        }, iter: 300);
    }

    [Fact]
    public void DayFromHeatStart_WarmAutumnAndEarlyWinter_DelaysABeech()
    {
        var noise = new double[Year.Days];
        var scale = Plants.Scale(Plants.Beech);
        var usual = GrowthClock.DayFromHeatStart(scale, Year, Noisy(noise, 15, (0, 0, 0)), 115, 1);
        var warmWinter = GrowthClock.DayFromHeatStart(scale, Year, Noisy(noise, 15, (30, 92, 9)), 115, 1);

        Assert.True(warmWinter > usual + 3, $"{warmWinter} against {usual}");
    }

    // Mean 4 C until a day, then a constant mean; daily range 10 C.
    private static SeasonMember Step(int from, double thenC, SeasonLight light)
    {
        double[] minC = new double[Year.Days], maxC = new double[Year.Days];
        for (var day = 0; day < Year.Days; day++)
        {
            var meanC = day < from ? 4 : thenC;
            (minC[day], maxC[day]) = (meanC - 5, meanC + 5);
        }
        return new SeasonMember(2023, minC, maxC, light);
    }

    private static SeasonMember Noisy(double[] noise, double yearMeanC, (int From, int Length, double WarmerC) spell)
    {
        double[] minC = new double[Year.Days], maxC = new double[Year.Days];
        for (var day = 0; day < Year.Days; day++)
        {
            var meanC = yearMeanC - 10 * Math.Cos(2 * Math.PI * (day - Year.HeatStartDay - 20) / 365) + noise[day];
            if (day >= spell.From && day < spell.From + spell.Length)
                meanC += spell.WarmerC;
            (minC[day], maxC[day]) = (meanC - 5, meanC + 5);
        }
        return new SeasonMember(2023, minC, maxC, Middle);
    }
}
