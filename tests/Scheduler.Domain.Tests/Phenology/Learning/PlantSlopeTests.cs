using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Domain.Tests.Phenology.Learning;

public sealed class PlantSlopeTests
{
    private const double Variance = 9;

    [Fact]
    public void PlantLikeTheOthers_KeepsTheirSlope() => Assert.InRange(Of(1.05, 20, 9, 16), 1.0, 1.05);

    [Fact]
    public void PlantThatIgnoresTheClock_InManySprings_IsDatedByTheCalendar() => Assert.InRange(Of(0, 20, 9, 64), 0, 0.15);

    [Fact]
    public void TwoSprings_ProveNothing() => Assert.InRange(Of(0, 2, 9, 16), 0.9, 1.05);

    [Theory]
    [InlineData(6, 12, 30)]
    [InlineData(20, 9, 25)]
    public void Odds_AreThoseOfNormalErrorsWithAnUnknownVariance(int springs, double small, double large)
    {
        // Normal errors, their variance v' with the density of a scaled inverse chi-squared variable of 5 degrees about the
        // place's (Gelman et al., Bayesian Data Analysis, 3rd ed., appendix A), summed over v'.
        var odds = Evidence(springs, large) / Evidence(springs, small);
        // Only the place's slope 1 and the rest: found back from a posterior in which all other slopes are alike and mean 0.45.
        var slope = PlantSlope.Of(1, Variance, springs, slope => slope == 1 ? large : small);
        Assert.Equal((0.95 * odds + 0.05 * 0.45) / (0.95 * odds + 0.05), slope, 3);
    }

    private static double Evidence(int springs, double meanSquare)
    {
        const double degrees = 5;
        var sum = 0d;
        for (var log = -4d; log < 12; log += 0.001)
        {
            var variance = Math.Exp(log);
            var prior = Math.Pow(variance, -degrees / 2) * Math.Exp(-degrees * Variance / (2 * variance));
            sum += prior * Math.Pow(variance, -springs / 2d) * Math.Exp(-springs * meanSquare / (2 * variance));
        }
        return sum;
    }

    // A plant whose own slope is given: its error grows with the square of what is missed of the clock's deviations.
    private static double Of(double own, int springs, double leastError, double clockSquare) =>
        PlantSlope.Of(1.05, Variance, springs, slope => leastError + clockSquare * (slope - own) * (slope - own));
}
