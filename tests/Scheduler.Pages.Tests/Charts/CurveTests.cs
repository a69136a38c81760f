using NodaTime;
using Scheduler.Service.Pages.Charts;

namespace Scheduler.Pages.Tests.Charts;

public sealed class CurveTests
{
    [Theory]
    [InlineData(2384, 500, 2500)]
    [InlineData(37, 10, 40)]
    [InlineData(98, 20, 100)]
    [InlineData(0, 0.2, 1)]
    public void Ticks_AreRound_AndHoldTheHighest(double highest, double first, double last)
    {
        var ticks = Curve.Ticks(highest);
        Assert.Equal(first, ticks[0]);
        Assert.Equal(last, ticks[^1]);
    }

    [Fact]
    public void Line_GoesThroughEveryThirdDay_AndTheLast()
    {
        // Heights of 0, 30, 60 and 70 of 100 are, from the top, 1000, 700, 400 and 300 of 1000.
        Assert.Equal("M1 1000L4 700L7 400L8 300", Curve.Line([0, 10, 20, 30, 40, 50, 60, 70], 100));
        Assert.Equal("M7 400L8 300", Curve.Line([0, 10, 20, 30, 40, 50, 60, 70], 100, 6));
        Assert.Equal("", Curve.Line([], 100));
    }

    [Fact]
    public void Band_IsClosed_AlongBothLines() => Assert.Equal("M1 800L2 700L2 900L1 1000Z", Curve.Band([0, 10], [20, 30], 100));

    [Fact]
    public void Axis_PlacesDaysByTheirShareOfIt()
    {
        var axis = new DayAxis(new LocalDate(2026, 1, 1), new LocalDate(2026, 4, 10));
        Assert.Equal(100, axis.Days);
        Assert.Equal("0%", axis.At(new LocalDate(2025, 12, 1)));
        Assert.Equal("31%", axis.At(new LocalDate(2026, 2, 1)));
        Assert.Equal("10%", axis.Wide(new LocalDate(2026, 1, 1), new LocalDate(2026, 1, 10)));
        Assert.Equal("1%", axis.Wide(new LocalDate(2026, 4, 10), new LocalDate(2026, 12, 31)));
        Assert.Equal([1, 2, 3, 4], axis.Months().Select(month => month.Month));
    }
}
