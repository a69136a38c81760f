using NodaTime;
using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Accumulation;

/// <summary>Every series here is invented: mild days, and frosts on the days named.</summary>
public class FrostDatesTests
{
    [Fact]
    public void North_LastAndFirstOfEachYear()
    {
        var series = Mild(2000, 2001, (2000, 3, 1), (2000, 4, 20), (2000, 10, 25), (2000, 12, 1), (2001, 5, 2), (2001, 11, 3));
        Assert.Equal([Frost(2000, 4, 20), Frost(2001, 5, 2)], FrostDates.LastOfSpring(series, Hemisphere.North).Years);
        Assert.Equal([Frost(2000, 10, 25), Frost(2001, 11, 3)], FrostDates.FirstOfAutumn(series, Hemisphere.North).Years);
    }

    [Fact]
    public void South_SpringIsInTheSecondHalfOfTheYear()
    {
        var series = Mild(2000, 2001, (2000, 5, 9), (2000, 6, 1), (2000, 9, 30), (2001, 6, 2), (2001, 7, 4));
        Assert.Equal([Frost(2000, 9, 30), Frost(2001, 7, 4)], FrostDates.LastOfSpring(series, Hemisphere.South).Years);
        Assert.Equal([Frost(2000, 5, 9), Frost(2001, 6, 2)], FrostDates.FirstOfAutumn(series, Hemisphere.South).Years);
    }

    [Fact]
    public void NoFrost_IsAnAnswer()
    {
        var record = FrostDates.LastOfSpring(Mild(2000, 2002), Hemisphere.North);
        Assert.Equal([new FrostYear(2000, null), new FrostYear(2001, null), new FrostYear(2002, null)], record.Years);
        Assert.Null(record.MeanOffsetDays);
        Assert.Null(record.PercentileOffsetDays(10));
        Assert.Null(record.MeanIn(2003));
        Assert.Null(record.PercentileIn(2003, 10));
    }

    [Fact]
    public void EmptySeries_HasNoYears()
    {
        var record = FrostDates.FirstOfAutumn(TemperatureSeries.Empty, Hemisphere.South);
        Assert.Empty(record.Years);
        Assert.Null(record.MeanOffsetDays);
        Assert.Null(record.PercentileOffsetDays(50));
    }

    [Fact]
    public void MissingDays_MakeOnlyUncertainYearsDropOut()
    {
        var whole = Mild(2000, 2000, (2000, 4, 20), (2000, 10, 25));
        var lost = Without(whole, new LocalDate(2000, 3, 1), new LocalDate(2000, 11, 1));
        Assert.Equal([Frost(2000, 4, 20)], FrostDates.LastOfSpring(lost, Hemisphere.North).Years);
        Assert.Equal([Frost(2000, 10, 25)], FrostDates.FirstOfAutumn(lost, Hemisphere.North).Years);

        var doubtful = Without(whole, new LocalDate(2000, 5, 1), new LocalDate(2000, 10, 1));
        Assert.Empty(FrostDates.LastOfSpring(doubtful, Hemisphere.North).Years);
        Assert.Empty(FrostDates.FirstOfAutumn(doubtful, Hemisphere.North).Years);
    }

    [Fact]
    public void RunningYear_SpringNotOverYet_IsLeftOut()
    {
        var series = Mild(2000, 2001, (2000, 4, 20), (2001, 4, 1)).Slice(new LocalDate(2000, 1, 1), new LocalDate(2001, 4, 30));
        Assert.Equal([Frost(2000, 4, 20)], FrostDates.LastOfSpring(series, Hemisphere.North).Years);
    }

    [Fact]
    public void Mean_CountsDaysFromTheSeasonStart_AcrossLeapYears()
    {
        // 20 April is day 110 from 0 in the leap year 2000; 23 April is day 112 in 2001. The mean, 111, is 22 April 2002 and 21 April 2004.
        var north = FrostDates.LastOfSpring(Mild(2000, 2001, (2000, 4, 20), (2001, 4, 23)), Hemisphere.North);
        Assert.Equal(111, north.MeanOffsetDays);
        Assert.Equal(new LocalDate(2002, 4, 22), north.MeanIn(2002));
        Assert.Equal(new LocalDate(2004, 4, 21), north.MeanIn(2004));

        // From 1 July before: 9 May is day 313 in 2000, after a 29 February, and 312 in 2001.
        var south = FrostDates.FirstOfAutumn(Mild(2000, 2001, (2000, 5, 9), (2001, 5, 9)), Hemisphere.South);
        Assert.Equal(312.5, south.MeanOffsetDays);
        Assert.Equal(new LocalDate(2002, 5, 10), south.MeanIn(2002));
        Assert.Equal(new LocalDate(2004, 5, 9), south.MeanIn(2004));
    }

    [Fact]
    public void Percentile_IsLinearBetweenRanks()
    {
        // Days 300 to 310 from 0, one a year, in mixed order: the tenth percentile of eleven is the second, the fifth half-way before it.
        int[] offsets = [305, 300, 310, 301, 309, 302, 308, 303, 307, 304, 306];
        var series = Mild(2000, 2010,
            [.. offsets.Select((offset, year) => new LocalDate(2000 + year, 1, 1).PlusDays(offset)).Select(date => (date.Year, date.Month, date.Day))]);
        var record = FrostDates.FirstOfAutumn(series, Hemisphere.North);
        Assert.Equal(301, record.PercentileOffsetDays(10));
        Assert.Equal(300.5, record.PercentileOffsetDays(5));
        Assert.Equal(305, record.PercentileOffsetDays(50));
        Assert.Equal(new LocalDate(2011, 10, 29), record.PercentileIn(2011, 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => record.PercentileOffsetDays(101));
    }

    [Fact]
    public void Percentile_YearsWithoutFrost_CountAsHarmless()
    {
        // Three years, one without frost: the earliest first frost is known, the latest is never; for the last frost it is the reverse.
        var series = Mild(2001, 2003, (2001, 4, 1), (2001, 10, 10), (2002, 4, 11), (2002, 10, 20));
        var autumn = FrostDates.FirstOfAutumn(series, Hemisphere.North);
        Assert.Equal(new LocalDate(2005, 10, 10), autumn.PercentileIn(2005, 0));
        Assert.Null(autumn.PercentileOffsetDays(90));
        var spring = FrostDates.LastOfSpring(series, Hemisphere.North);
        Assert.Null(spring.PercentileOffsetDays(10));
        Assert.Equal(new LocalDate(2005, 4, 11), spring.PercentileIn(2005, 100));
    }

    [Fact]
    public void ZeroDegrees_IsAFrost_AndTheLimitCanBeMoved()
    {
        var date = new LocalDate(2000, 4, 20);
        var series = Mild(2000, 2000).OverlaidWith(TemperatureSeries.From([new DailyTemperature(date, 0, 9)]));
        Assert.Equal(date, FrostDates.LastOfSpring(series, Hemisphere.North).Years[0].Date);
        Assert.Null(FrostDates.LastOfSpring(series, Hemisphere.North, frostC: -2).Years[0].Date);
    }

    private static FrostYear Frost(int year, int month, int day) => new(year, new LocalDate(year, month, day));

    private static TemperatureSeries Mild(int firstYear, int lastYear, params (int Year, int Month, int Day)[] frosts) =>
        TemperatureSeries.From(
        [
            .. new DateInterval(new LocalDate(firstYear, 1, 1), new LocalDate(lastYear, 12, 31)).Select(date => new DailyTemperature(date, 5, 15)),
            .. frosts.Select(frost => new DailyTemperature(new LocalDate(frost.Year, frost.Month, frost.Day), -1, 8)),
        ]);

    private static TemperatureSeries Without(TemperatureSeries series, params LocalDate[] lost)
    {
        double[] minC = series.MinC.ToArray(), maxC = series.MaxC.ToArray();
        foreach (var date in lost)
            minC[series.IndexOf(date)] = maxC[series.IndexOf(date)] = double.NaN;
        return new TemperatureSeries(series.Start, minC, maxC);
    }
}
