using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Domain.Tests.Phenology.Learning;

public sealed class BandCalibrationTests
{
    [Theory]
    // (|94 - 100| - 0.5) / 4 and (|105 - 100| - 0.5) / 8; within half a day of the likely one nothing is missing.
    [InlineData(94, 1.375)]
    [InlineData(105, 0.5625)]
    [InlineData(100, 0)]
    public void Score_IsTheDistanceInHalfWidthsOfThatSide(double day, double score) =>
        Assert.Equal(score, BandCalibration.Score(new DayForecast(96, 100, 108), day), 9);

    [Fact]
    public void Of_NothingScored_IsOne() => Assert.Equal(1, Of([]).Of("a", "trees"), 9);

    // Forty years whose 0.8 quantile is 2 count as much as the prior: the square root of 2 for the group, and half way
    // (as logarithms) from there to 2 for the place.
    [Fact]
    public void Of_FortyYearsTooNarrow_IsHalfWayToWhatTheyNeeded()
    {
        var scores = Enumerable.Range(1960, 40).Select(year => (year, 2d)).ToList();
        var calibration = Of(scores);

        Assert.Equal(Math.Pow(2, 0.75), calibration.Of("a", "trees"), 9);
        Assert.Equal(Math.Pow(2, 0.5), calibration.Of("b", "trees"), 9);
        Assert.Equal(1, calibration.Of("a", "fruit"), 9);
    }

    // Many plants of one spring share its error: they count as one year.
    [Fact]
    public void Of_ManyPlantsOfOneYear_CountAsOneYear() =>
        Assert.Equal(Math.Pow(2, 1 / 41d), Of([.. Enumerable.Repeat((2000, 2d), 50)]).Of("b", "trees"), 9);

    private static BandCalibration Of(List<(int Year, double Score)> scores) =>
        new(new Dictionary<(string, string), IReadOnlyList<(int, double)>> { [("a", "trees")] = scores });
}
