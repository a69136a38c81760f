using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Domain.Tests.Phenology.Learning;

public class StandardNormalTests
{
    /// <remarks>Table of the normal distribution (any statistics handbook): 1.2816 at 90 %, 1.9600 at 97.5 %.</remarks>
    [Theory]
    [InlineData(0.5, 0)]
    [InlineData(0.9, 1.2816)]
    [InlineData(0.1, -1.2816)]
    [InlineData(0.975, 1.9600)]
    public void Quantile_IsThatOfTheTable(double share, double value) => Assert.Equal(value, StandardNormal.Quantile(share), 5e-4);

    [Fact]
    public void Middles_AreEvenAboutZero() => Assert.Equal(0, StandardNormal.Middles(20).Sum(), 9);
}
