using Scheduler.Domain.Accumulation;

namespace Scheduler.Domain.Tests.Accumulation;

public class DegreeDaysTests
{
    [Fact]
    public void Accumulate_MissingDayAddsNothing()
    {
        var total = new double[4];
        DegreeDays.Accumulate([0, double.NaN, 6, 4], [20, double.NaN, 10, 5], 5, total);
        Assert.Equal([5, 5, 8, 8], total);
    }

    [Fact]
    public void Accumulate_LengthsDiffer_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => DegreeDays.Accumulate([1, 2], [3], 5, new double[2]));
        Assert.Throws<ArgumentException>(() => DegreeDays.Accumulate([1, 2], [3, 4], 5, new double[1]));
    }
}
