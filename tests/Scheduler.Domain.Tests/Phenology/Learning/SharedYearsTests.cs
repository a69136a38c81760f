using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Domain.Tests.Phenology.Learning;

public sealed class SharedYearsTests
{
    private static readonly SeriesKey Birch = new("here", "Betula lenta", "leaf"), Maple = new("here", "Acer rubrum", "leaf"), Oak = new("here", "Quercus alba", "leaf");

    // By hand, for a plant of no own spring: weights 10/20 and 30/40, (0.5 * 0.2 + 0.75 * 0.4) / (1.25 + 1).
    [Fact]
    public void Of_IsTheOthersMeanWeighedByTheirSprings()
    {
        var years = new SharedYears();
        years.Add(Birch, 2015, 0.2, springs: 10);
        years.Add(Maple, 2015, 0.4, springs: 30);
        years.Add(Oak, 2015, -3, springs: 5);

        Assert.Equal(0.4 / 2.25, years.Of(Oak, 2015, springs: 0), 9);
        Assert.Equal(0, years.Of(Oak, 2016, springs: 0), 9);
    }

    // By hand: 10 - 20 / 2 = 0 and 30 - 20 / 2 = 20 springs longer, 20/30 * 0.4 / (20/30 + 1).
    [Fact]
    public void Of_LeavesOutNeighborsThatWereSeenNoLongerThanHalfOfThePlantsOwnSprings()
    {
        var years = new SharedYears();
        years.Add(Birch, 2015, 0.2, springs: 10);
        years.Add(Maple, 2015, 0.4, springs: 30);

        Assert.Equal(0.16, years.Of(Oak, 2015, springs: 20), 9);
    }
}
