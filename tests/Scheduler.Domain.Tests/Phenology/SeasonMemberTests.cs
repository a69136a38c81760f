using Scheduler.Domain.Phenology;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class SeasonMemberTests
{
    private static readonly GrowthYear Year = new(2023, Hemisphere.North);

    [Fact]
    public void Heat_ConstantDay()
    {
        var member = Constant(8, 12);

        Assert.Equal(5, member.Heat5Cd[0]);
        Assert.Equal(5 * 487, member.Heat5Cd[^1]);
        Assert.Equal(0, member.Heat10Cd[^1]);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.5, 2.5)]
    [InlineData(10, 50)]
    [InlineData(10.25, 51.25)]
    [InlineData(487, 487 * 5)]
    [InlineData(900, 487 * 5)]
    [InlineData(-3, 0)]
    public void HeatAt_FiveADay(double day, double heatCd) => Assert.Equal(heatCd, SeasonMember.HeatAt(Constant(8, 12).Heat5Cd, day), 9);

    // Five a day: 12 C*d after day 100.5 are reached 2.4 days later.
    [Theory]
    [InlineData(100.5, 12, 102.9)]
    [InlineData(100, 0, 100)]
    [InlineData(-20, 5, 0.999)]
    [InlineData(480, 1000, double.PositiveInfinity)]
    [InlineData(double.PositiveInfinity, 1, double.PositiveInfinity)]
    public void DayOfHeat_FiveADay(double from, double sumCd, double day) => Assert.Equal(day, Constant(8, 12).DayOfHeat(5, from, sumCd), 9);

    [Fact]
    public void DayOfHeat_AfterAColdSpell_WaitsForIt()
    {
        double[] minC = new double[Year.Days], maxC = new double[Year.Days];
        Array.Fill(minC, -5);
        Array.Fill(maxC, 5);
        minC[200] = maxC[200] = 15;
        var member = new SeasonMember(2023, minC, maxC, new SeasonLight(40, Year));

        Assert.Equal(200.4, member.DayOfHeat(5, 150, 4), 9);
        Assert.True(double.IsPositiveInfinity(member.DayOfHeat(5, 150, 10.1)));
    }

    [Fact]
    public void SpringWarmth_BeginsAtHeatStart_AndIsWeighted()
    {
        var member = Constant(8, 12);
        var light = new SeasonLight(40, Year);

        Assert.Equal(0, member.SpringWarmthCd[Year.HeatStartDay - 1]);
        Assert.Equal(5 * light.WarmthWeight[Year.HeatStartDay], member.SpringWarmthCd[Year.HeatStartDay], 12);
        Assert.Equal(5 * light.WarmthWeight[Year.HeatStartDay + 1], member.SpringWarmthCd[Year.HeatStartDay + 1] - member.SpringWarmthCd[Year.HeatStartDay], 12);
    }

    [Fact]
    public void Chill_StopsAtMidsummer()
    {
        var member = Constant(2, 8);

        Assert.True(member.ChillPortions[Year.MidsummerDay - 1] > 100);
        Assert.Equal(member.ChillPortions[Year.MidsummerDay - 1], member.ChillPortions[^1]);
    }

    [Fact]
    public void MissingDays_AddNothing()
    {
        double[] minC = new double[Year.Days], maxC = new double[Year.Days];
        Array.Fill(minC, 8);
        Array.Fill(maxC, 12);
        minC.AsSpan(150, 10).Fill(double.NaN);
        maxC.AsSpan(150, 10).Fill(double.NaN);
        var member = new SeasonMember(2023, minC, maxC, new SeasonLight(40, Year));

        Assert.Equal(5 * 477, member.Heat5Cd[^1]);
        Assert.Equal(member.ChillPortions[149], member.ChillPortions[159], 0.2);
        Assert.DoesNotContain(member.ChillPortions, double.IsNaN);
        Assert.DoesNotContain(member.SpringWarmthCd, double.IsNaN);
    }

    private static SeasonMember Constant(double minC, double maxC)
    {
        double[] low = new double[Year.Days], high = new double[Year.Days];
        Array.Fill(low, minC);
        Array.Fill(high, maxC);
        return new SeasonMember(2023, low, high, new SeasonLight(40, Year));
    }
}
