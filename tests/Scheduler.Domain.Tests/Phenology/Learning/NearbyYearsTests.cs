using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Domain.Tests.Phenology.Learning;

public sealed class NearbyYearsTests
{
    // By hand: eight years off counts half: (100 + 0.5 * 103) / 1.5 = 101.
    [Fact]
    public void Mean_EightYearsOff_CountsHalf() => Assert.Equal(101, NearbyYears.Mean([(2000, 100), (2008, 103)], 2000), 9);

    [Fact]
    public void RobustDay_FarOffDate_MovesItLittle()
    {
        var clean = NearbyYears.RobustDay([(2000, 100), (2001, 101), (2002, 99), (2003, 100)], 2004);
        var soiled = NearbyYears.RobustDay([(2000, 100), (2001, 101), (2002, 99), (2003, 100), (2003, 140)], 2004);

        Assert.InRange(clean, 99.5, 100.5);
        Assert.InRange(soiled - clean, 0, 3);
    }

    [Fact]
    public void RobustDay_OneDate_IsThatDate() => Assert.Equal(77, NearbyYears.RobustDay([(1990, 77)], 2010), 9);
}
