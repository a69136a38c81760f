using Scheduler.Domain.Phenology;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class RegrowthTests
{
    private static readonly GrowthYear Year = new(2020, Hemisphere.North);

    // 10 C*d a day: 250 to the first new leaves, 50 to each further pair of the maple.
    [Theory]
    [InlineData(10, 25)]
    [InlineData(11, 25)]
    [InlineData(14, 40)]
    public void DayOf_ConstantWarmth_IsHeatOverWarmth(int bbch, double daysAfter) =>
        Assert.Equal(280 + daysAfter, Regrowth.DayOf(bbch, Plants.Scale(Plants.Maple), Constant(15), 280), 1);

    [Fact]
    public void DayOf_TooCold_NotThisSeason() =>
        Assert.True(double.IsPositiveInfinity(Regrowth.DayOf(11, Plants.Scale(Plants.Maple), Constant(4), 280)));

    private static SeasonMember Constant(double meanC)
    {
        double[] days = [.. Enumerable.Repeat(meanC, Year.Days)];
        return new SeasonMember(2020, days, days, new SeasonLight(45, Year));
    }
}
