using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Weather;

public class TemperatureSeriesTests
{
    private const double Nan = double.NaN;
    private static readonly LocalDate Start = new(2000, 2, 27);

    [Fact]
    public void From_AnyOrder_LastOfARepeatedDateCounts()
    {
        var series = TemperatureSeries.From([Day(3, 4), Day(0, 1), Day(1, 2), Day(0, 9)]);
        Assert.Equal(Start, series.Start);
        Assert.Equal(new LocalDate(2000, 3, 1), series.End);
        Assert.Equal([9, 2, Nan, 4], series.MinC.ToArray());
        Assert.Equal([19, 12, Nan, 14], series.MaxC.ToArray());
        Assert.Equal([new DateInterval(new LocalDate(2000, 2, 29), new LocalDate(2000, 2, 29))], series.Gaps);
    }

    [Fact]
    public void Empty_HasNothing()
    {
        var empty = TemperatureSeries.From([]);
        Assert.Same(TemperatureSeries.Empty, empty);
        Assert.Equal(0, empty.Count);
        Assert.Empty(empty.Gaps);
        Assert.Equal(-1, empty.IndexOf(empty.Start));
        Assert.False(empty.Has(empty.Start));
        Assert.Equal(empty.Start.PlusDays(-1), empty.End);
        Assert.Equal(2, empty.Slice(Start, Start.PlusDays(1)).Count);
        Assert.Equal(0, empty.FillShortGaps(9).ShiftedBy(1).Count);
    }

    [Fact]
    public void IndexOf_AndHas()
    {
        var series = Series(1, Nan, 3);
        Assert.Equal([-1, 0, 1, 2, -1], Enumerable.Range(-1, 5).Select(day => series.IndexOf(Start.PlusDays(day))));
        Assert.Equal([false, true, false, true, false], Enumerable.Range(-1, 5).Select(day => series.Has(Start.PlusDays(day))));
    }

    [Fact]
    public void Constructor_RefusesWhatIsNoDay()
    {
        Assert.Throws<ArgumentException>(() => new TemperatureSeries(Start, [1, 2], [3]));
        Assert.Throws<ArgumentException>(() => new TemperatureSeries(Start, [1, 5], [3, 4]));
        Assert.Throws<ArgumentException>(() => new TemperatureSeries(Start, [Nan], [3]));
        Assert.Throws<ArgumentException>(() => new TemperatureSeries(Start, [3], [Nan]));
        var fault = Assert.Throws<ArgumentException>(() => new TemperatureSeries(Start, [1, 1, -95], [2, 2, 2]));
        Assert.Contains("2000-02-29", fault.Message);
    }

    [Fact]
    public void Constructor_CopiesItsArrays()
    {
        double[] minC = [1], maxC = [2];
        var series = new TemperatureSeries(Start, minC, maxC);
        (minC[0], maxC[0]) = (50, 40);
        Assert.Equal((1, 2), (series.MinC[0], series.MaxC[0]));
    }

    [Fact]
    public void Gaps_EveryRun()
    {
        var series = Series(Nan, 1, Nan, Nan, 2, Nan);
        Assert.Equal([Days(0, 0), Days(2, 3), Days(5, 5)], series.Gaps);
    }

    [Fact]
    public void FillShortGaps_LinearBetweenNeighbors()
    {
        var series = Series(Nan, 0, Nan, Nan, 6, Nan, Nan, Nan, 8, Nan);
        Assert.Equal([Nan, 0, 2, 4, 6, Nan, Nan, Nan, 8, Nan], series.FillShortGaps(2).MinC.ToArray());
        Assert.Equal([Nan, 10, 12, 14, 16, Nan, Nan, Nan, 18, Nan], series.FillShortGaps(2).MaxC.ToArray());
        Assert.Equal([Nan, 0, 2, 4, 6, 6.5, 7, 7.5, 8, Nan], series.FillShortGaps(3).MinC.ToArray());
        Assert.Equal(series.MinC.ToArray(), series.FillShortGaps(1).MinC.ToArray());
        Assert.Throws<ArgumentOutOfRangeException>(() => series.FillShortGaps(-1));
    }

    [Fact]
    public void Slice_PadsOutside()
    {
        var series = Series(1, 2, 3);
        var slice = series.Slice(Start.PlusDays(-1), Start.PlusDays(1));
        Assert.Equal(Start.PlusDays(-1), slice.Start);
        Assert.Equal([Nan, 1, 2], slice.MinC.ToArray());
        Assert.Equal([2, 3, Nan, Nan], series.Slice(Start.PlusDays(1), Start.PlusDays(4)).MinC.ToArray());
        Assert.Equal([Nan, Nan], series.Slice(Start.PlusDays(10), Start.PlusDays(11)).MinC.ToArray());
        Assert.Equal([Nan, Nan], series.Slice(Start.PlusDays(-11), Start.PlusDays(-10)).MinC.ToArray());
        Assert.Equal([2], series.Slice(Start.PlusDays(1), Start.PlusDays(1)).MinC.ToArray());
        Assert.Throws<ArgumentException>(() => series.Slice(Start, Start.PlusDays(-1)));
    }

    [Fact]
    public void OverlaidWith_BetterDaysWin_OverTheUnion()
    {
        var model = Series(1, 2, Nan, 4);
        var readings = new TemperatureSeries(Start.PlusDays(1), [22, Nan, Nan, Nan, 26], [30, Nan, Nan, Nan, 30]);
        var union = model.OverlaidWith(readings);
        Assert.Equal(Start, union.Start);
        Assert.Equal([1, 22, Nan, 4, Nan, 26], union.MinC.ToArray());
        Assert.Equal([11, 30, Nan, 14, Nan, 30], union.MaxC.ToArray());
        Assert.Equal([1, 2, Nan, 4, Nan, 26], readings.OverlaidWith(model).MinC.ToArray());
        Assert.Equal([1, 2, Nan, 4], model.MinC.ToArray());
        Assert.Same(model, model.OverlaidWith(TemperatureSeries.Empty));
        Assert.Same(model, TemperatureSeries.Empty.OverlaidWith(model));
    }

    [Fact]
    public void OverlaidWith_Apart_LeavesAGap()
    {
        var union = Series(1).OverlaidWith(new TemperatureSeries(Start.PlusDays(3), [4], [5]));
        Assert.Equal([1, Nan, Nan, 4], union.MinC.ToArray());
        Assert.Equal([Days(1, 2)], union.Gaps);
    }

    [Fact]
    public void ShiftedBy_MovesEveryDay()
    {
        var warmer = Series(1, Nan, 3).ShiftedBy(-1.5);
        Assert.Equal([-0.5, Nan, 1.5], warmer.MinC.ToArray());
        Assert.Equal([9.5, Nan, 11.5], warmer.MaxC.ToArray());
        Assert.Throws<ArgumentOutOfRangeException>(() => warmer.ShiftedBy(Nan));
        Assert.Throws<ArgumentException>(() => warmer.ShiftedBy(50));
    }

    private static DailyTemperature Day(int offset, double minC) => new(Start.PlusDays(offset), minC, minC + 10);

    private static TemperatureSeries Series(params double[] minC) => new(Start, minC, [.. minC.Select(value => value + 10)]);

    private static DateInterval Days(int first, int last) => new(Start.PlusDays(first), Start.PlusDays(last));

    [Fact]
    public void HoldForward_RepeatsTheDayBeforeAndNeverLooksAhead()
    {
        var nan = double.NaN;
        var series = new TemperatureSeries(new LocalDate(2024, 2, 27), [nan, 1, nan, nan, nan, 5, nan], [nan, 9, nan, nan, nan, 7, nan]);

        var held = series.HoldForward(2);

        Assert.Equal([nan, 1, 1, 1, nan, 5, 5], held.MinC.ToArray());
        Assert.Equal([nan, 9, 9, 9, nan, 7, 7], held.MaxC.ToArray());
    }
}
