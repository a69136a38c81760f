using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Domain.Tests.Phenology.Learning;

public class SeriesThresholdTests
{
    private static readonly ClockRules Rules = ClockRules.Developed;
    private static readonly Prior NoPrior = new(null, 0.45);

    [Fact]
    public void Threshold_WithoutPriorAndOutliers_IsTheMean()
    {
        var fitted = Fit([6.0, 6.1, 5.9, 6.0], NoPrior, 0.2);
        Assert.Equal(6.0, fitted.Value, 9);
        // Variance of a mean of four with a spread of 0.12.
        Assert.Equal(0.12 * 0.12 / 4, fitted.Variance, 9);
    }

    [Fact]
    public void Threshold_OfOneDate_IsDrawnToThePriorByTheirPrecisions()
    {
        // (6 / 0.12^2 + 7 / 0.3^2) / (1 / 0.12^2 + 1 / 0.3^2), by hand 6.1379, while the date is within the prior's spread of it.
        var fitted = Fit([6.8], new Prior(7, 0.3), 0.12);
        Assert.Equal((6.8 / 0.0144 + 7 / 0.09) / (1 / 0.0144 + 1 / 0.09), fitted.Value, 9);
    }

    [Fact]
    public void Threshold_WithOneLateYear_StaysWithTheOthers()
    {
        var fitted = Fit([6.0, 6.05, 5.95, 6.0, 7.5], NoPrior, 0.1);
        Assert.InRange(fitted.Value, 5.98, 6.08);
    }

    [Fact]
    public void Threshold_WithoutAYear_DoesNotKnowIt()
    {
        var fitted = Fit([6.0, 6.2, 6.1], NoPrior, 1);
        Assert.Equal((6.2 + 6.1) / 2, fitted.At(Year, 0), 9);
        Assert.Equal((6.0 + 6.1) / 2, fitted.At(Year, 1), 9);
    }

    [Fact]
    public void FewDates_MoveTheThresholdLess_ThanMany()
    {
        var prior = new Prior(7, 0.3);
        var one = Fit([6.8], prior, 0.12);
        var many = Fit([.. Enumerable.Repeat(6.8, 10)], prior, 0.12);
        Assert.True(many.Value < one.Value);
        Assert.Equal(6.8, many.Value, 0.01);
    }

    [Fact]
    public void NearYears_CountMore()
    {
        // Eight years halve a date's weight: by hand (6.0 / 2 + 6.3) / 1.5 and (6.0 + 6.3 / 2) / 1.5.
        var fitted = Fit([6.0, 6.3], NoPrior, 1, [2000, 2008]);
        Assert.Equal(6.2, fitted.At(2008), 9);
        Assert.Equal(6.1, fitted.At(2000), 9);
        Assert.Equal(6.15, fitted.Value, 9);
    }

    [Fact]
    public void DatesOfLongAgo_LeaveMoreToTheRelatives()
    {
        var fitted = Fit([6.8], new Prior(7, 0.3), 0.12, [1990]);
        Assert.Equal((6.8 / 0.0144 / 8 + 7 / 0.09) / (1 / 0.0144 / 8 + 1 / 0.09), fitted.At(2014), 9);
        Assert.True(fitted.VarianceAt(2014) > fitted.VarianceAt(1990));
        Assert.Equal(fitted.Variance, fitted.VarianceAt(1990), 12);
        // Never less sure than the relatives alone.
        Assert.InRange(fitted.VarianceAt(2090), fitted.VarianceAt(2014), 0.09);
    }

    private const int Year = 2000;

    private static SeriesThreshold Fit(double[] values, Prior prior, double spread, int[]? years = null) =>
        SeriesThreshold.Fit(values, years ?? [.. values.Select(_ => Year)], new double[values.Length], prior, spread, Rules);
}
