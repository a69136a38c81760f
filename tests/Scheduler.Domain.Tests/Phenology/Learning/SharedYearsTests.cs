using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Domain.Tests.Phenology.Learning;

public sealed class SharedYearsTests
{
    private static readonly SeriesKey Birch = new("here", "Betula lenta", "leaf"), Maple = new("here", "Acer rubrum", "leaf"), Oak = new("here", "Quercus alba", "leaf");

    // By hand: weights 10/20 and 30/40, (0.5 * 0.2 + 0.75 * 0.4) / (1.25 + 1).
    [Fact]
    public void Of_IsTheOthersMeanWeighedByTheirSprings()
    {
        var years = new SharedYears();
        years.Add(Birch, 2015, 0.2, springs: 10);
        years.Add(Maple, 2015, 0.4, springs: 30);
        years.Add(Oak, 2015, -3, springs: 5);

        Assert.Equal(0.4 / 2.25, years.Of(Oak, 2015), 9);
        Assert.Equal(0, years.Of(Oak, 2016), 9);
    }
}
