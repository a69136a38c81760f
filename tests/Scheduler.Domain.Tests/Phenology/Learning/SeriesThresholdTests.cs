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
        Assert.Equal(6.1, fitted.Without(0) + fitted.Without(1) - 6.1, 1);
        Assert.Equal((6.2 + 6.1) / 2, fitted.Without(0), 9);
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

    private static SeriesThreshold Fit(double[] values, Prior prior, double spread) =>
        SeriesThreshold.Fit(values, new double[values.Length], prior, spread, Rules);
}
