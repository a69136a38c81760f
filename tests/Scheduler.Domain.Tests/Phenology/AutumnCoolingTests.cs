using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class AutumnCoolingTests
{
    private const double UsualDay = 420;
    private static readonly double[] TenHours = [.. Enumerable.Repeat(10d, 480)];

    // By hand: 8 C short of 20, times 12 h / 10 h.
    [Fact]
    public void MeanC_ConstantAutumn_IsShortfallTimesDayLength() => Assert.Equal(9.6, Cooling(Constant(12)), 9);

    [Fact]
    public void MeanC_WarmAutumn_IsNothing() => Assert.Equal(0, Cooling(Constant(25)));

    // 81 days from day 334 to day 414; the first 41 of them are known and count, over the whole span.
    [Fact]
    public void MeanC_CutOff_CountsTheKnownPart() => Assert.Equal(9.6 * 41 / 81, Cooling(Constant(12), 374), 9);

    [Fact]
    public void MeanC_MostlyMissing_IsNotKnown()
    {
        var days = Constant(12);
        days.AsSpan(334, 50).Fill(double.NaN);

        Assert.True(double.IsNaN(Cooling(days)));
    }

    private static double Cooling(double[] meanC, int lastDay = int.MaxValue) => AutumnCooling.MeanC(meanC, meanC, TenHours, UsualDay, lastDay);

    private static double[] Constant(double meanC) => [.. Enumerable.Repeat(meanC, 480)];
}
