using NodaTime;
using Scheduler.Domain.Tests.Phenology.Support;

namespace Scheduler.Domain.Tests.Phenology.Learning;

public sealed partial class GardenClockTests
{
    // A new trunk, a new bench, a new eye: what was seen lately holds more than what was seen long ago.
    [Fact]
    public void Of_PlantThatChanged_FollowsItsRecentSprings()
    {
        double recent = Changed(index => index < 12), former = Changed(index => index >= 12);
        output.WriteLine($"twelve of 24 springs ten days late, the recent ones: {recent:F1} d, the former ones: {former:F1} d");
        Assert.InRange(recent, former + 2, 10.5);

        double Changed(Func<int, bool> isLate) => Usual(Learned(Springs(Plants.Maple, 7, 24, lateDays: 0)
            .Select((seen, index) => isLate(index) ? seen with { Date = seen.Date.PlusDays(10) } : seen)).Of(Plants.Maple).Of(7)!)
            - Usual(Learned(Springs(Plants.Maple, 7, 24, lateDays: 0)).Of(Plants.Maple).Of(7)!);
    }

    [Fact]
    public void Of_PlantThatIgnoresTheClock_IsDatedByItsCalendarAndSaysSo()
    {
        var follows = Springs(Plants.Beech, 7, 24, lateDays: 0);
        var ignores = Springs(Plants.Maple, 7, 24, lateDays: 0).ConvertAll(seen => seen with { Date = new LocalDate(seen.Date.Year, 4, 5) });
        var garden = Plants.LearnedClock(Season, (Plants.Beech, follows), (Plants.Maple, ignores));

        Assert.InRange(garden.Of(Plants.Maple).Of(7)!.Slope, 0, 0.3);
        Assert.True(garden.Of(Plants.Maple).TellsLittle(7));
        Assert.InRange(garden.Of(Plants.Beech).Of(7)!.Slope, 0.6, 1.1);
        Assert.False(garden.Of(Plants.Beech).TellsLittle(7));
    }
}
