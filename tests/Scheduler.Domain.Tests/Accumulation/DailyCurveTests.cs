using CsCheck;
using Scheduler.Domain.Accumulation;

namespace Scheduler.Domain.Tests.Accumulation;

public class DailyCurveTests
{
    private static readonly Gen<(double MinC, double MaxC)> Days =
        Gen.Select(Gen.Double[-40, 35], Gen.Double[0, 25]).Select((minC, rangeC) => (minC, minC + rangeC));

    [Fact]
    public void SineAbove_IsTheFormulaWithTheLibrarysArcCosine() =>
        Gen.Select(Days, Gen.Double[-10, 30]).Sample((day, thresholdC) =>
            Math.Abs(Published(day.MinC, day.MaxC, thresholdC) - DailyCurve.SineAbove(day.MinC, day.MaxC, thresholdC)) < 1e-9);

    // Where the threshold just touches an extreme, or nearly so, rounding must not make warmth negative or unknown.
    [Fact]
    public void SineAbove_ThresholdAtAnExtreme_IsContinuous() =>
        Gen.Select(Days.Where(day => day.MaxC > day.MinC), Gen.Double[-1e-12, 1e-12]).Sample((day, nudgeC) =>
            DailyCurve.SineAbove(day.MinC, day.MaxC, day.MaxC + nudgeC) is >= 0 and < 1e-9
            && Math.Abs(DailyCurve.SineAbove(day.MinC, day.MaxC, day.MinC + nudgeC) - (day.MaxC - day.MinC) / 2) < 1e-9);

    [Fact]
    public void AccumulateSineAbove_IsTheSumOfItsDays() =>
        Gen.Select(Days.Array[1, 80], Gen.Double[-10, 30]).Sample((days, thresholdC) =>
        {
            var total = new double[days.Length];
            DailyCurve.AccumulateSineAbove([.. days.Select(day => day.MinC)], [.. days.Select(day => day.MaxC)], thresholdC, total);
            return Math.Abs(total[^1] - days.Sum(day => DailyCurve.SineAbove(day.MinC, day.MaxC, thresholdC))) < 1e-9;
        });

    [Fact]
    public void AccumulateSineAbove_MissingDay_AddsNothing()
    {
        var total = new double[3];
        DailyCurve.AccumulateSineAbove([2, double.NaN, 6], [12, double.NaN, 10], 5, total);
        Assert.True(total[0] > 2);
        Assert.Equal(total[0], total[1]);
        Assert.Equal(total[0] + 3, total[2], 1e-12);
    }

    [Fact]
    public void AccumulateSineAbove_OtherLengths_AreRefused() =>
        Assert.Throws<ArgumentException>(() => DailyCurve.AccumulateSineAbove([1, 2], [3, 4], 5, new double[1]));

    // Allen 1976, as in the type's remarks, with θ itself.
    private static double Published(double minC, double maxC, double thresholdC)
    {
        if (maxC <= thresholdC)
            return 0;
        double meanC = (minC + maxC) / 2, halfRangeC = (maxC - minC) / 2;
        if (minC >= thresholdC)
            return meanC - thresholdC;
        var theta = Math.Asin(Math.Clamp((thresholdC - meanC) / halfRangeC, -1, 1));
        return ((meanC - thresholdC) * (Math.PI / 2 - theta) + halfRangeC * Math.Cos(theta)) / Math.PI;
    }
}
