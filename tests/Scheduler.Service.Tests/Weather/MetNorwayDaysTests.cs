using NodaTime;
using Scheduler.Service.Tests.Weather.Support;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Weather;

public sealed class MetNorwayDaysTests
{
    private static readonly LocalDateTime Midnight = new(2026, 4, 21, 0, 0);
    private static readonly Instant Now = Instant.FromUtc(2026, 4, 20, 10, 0);

    private static (IReadOnlyList<SourceDay> Days, IReadOnlyList<RefusedDay> Refused) Read(string body, int offsetHours = 0)
    {
        var (got, fault) = MetNorwayDays.Read(body, offsetHours, Now);
        Assert.Null(fault);
        return (got!.Days, got.Refused);
    }

    private static IEnumerable<(LocalDateTime, double, double?, double?)> Hours(int count, Func<int, double> temperatureC) =>
        Enumerable.Range(0, count).Select(hour => (Midnight.PlusHours(hour), temperatureC(hour), (double?)null, (double?)null));

    [Fact]
    public void Read_HourlyDay_HasTheExtremesOfItsHours()
    {
        var (days, _) = Read(MetNorwayFake.Body(Hours(25, hour => hour == 24 ? 99 : 5 + hour)));
        var day = Assert.Single(days);
        Assert.Equal((new LocalDate(2026, 4, 21), 5, 28), (day.Date, day.MinC, day.MaxC));
    }

    [Theory]
    // Of 24 hours 22 are 92 %, 21 are 88 %; at least 90 % are asked for.
    [InlineData(2, true)]
    [InlineData(3, false)]
    public void Read_PartOfADayMissing_CountsOnlyFromNinetyPercent(int missingHours, bool counts)
    {
        var (days, refused) = Read(MetNorwayFake.Body(Hours(25, _ => 8).Skip(missingHours)));
        Assert.Equal(counts, days.Count == 1);
        Assert.Equal(!counts, refused.Any(day => day.Date == new LocalDate(2026, 4, 21)));
    }

    [Fact]
    public void Read_SixHourSteps_UseTheirExtremes()
    {
        var steps = Enumerable.Range(0, 5).Select(step => (Midnight.PlusHours(6 * step), 10.0, (double?)(7 - step), (double?)(13 + step)));
        var day = Assert.Single(Read(MetNorwayFake.Body(steps)).Days);
        Assert.Equal((4, 16), (day.MinC, day.MaxC));
    }

    [Fact]
    public void Read_SixHourStepsWithoutExtremes_DoNotCoverADay() =>
        Assert.Empty(Read(MetNorwayFake.Body(Enumerable.Range(0, 9).Select(step => (Midnight.PlusHours(6 * step), 10.0, (double?)null, (double?)null)))).Days);

    [Fact]
    public void Read_SixHourStepAcrossMidnight_IsCutThere()
    {
        // At UTC+3 the step from 18:00 UTC runs from 21:00 to 3:00; the value rises from 0 to 12, so it is 6 at midnight.
        double[] at = [8, 14, 15, 0, 12, 13, 14, 11, 10];
        var steps = at.Select((temperatureC, step) => (Midnight.PlusHours(6 * step), temperatureC, (double?)(temperatureC - 0.5), (double?)(temperatureC + 0.5)));
        var (days, _) = Read(MetNorwayFake.Body(steps), offsetHours: 3);
        var day = days.Single(day => day.Date == new LocalDate(2026, 4, 22));
        // Neither the 0 of the evening before nor the 0 - 0.5 of the step, but midnight itself; and 14 + 0.5 of the step from 15:00.
        Assert.Equal((6, 14.5), (day.MinC, day.MaxC));
    }

    [Theory]
    [InlineData("{", "no valid JSON")]
    [InlineData("""{"properties":{}}""", "no timeseries")]
    [InlineData("""{"properties":{"meta":{"units":{"air_temperature":"fahrenheit"}},"timeseries":[]}}""", "celsius")]
    [InlineData("""{"properties":{"meta":{"units":{"air_temperature":"celsius"}},"timeseries":[{"time":"yesterday"}]}}""", "faulty step")]
    public void Read_NotThePublishedShape_IsRefusedWhole(string body, string why) =>
        Assert.Contains(why, MetNorwayDays.Read(body, 0, Now).Fault, StringComparison.Ordinal);
}
