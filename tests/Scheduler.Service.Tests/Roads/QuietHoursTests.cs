using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Roads;

namespace Scheduler.Service.Tests.Roads;

public class QuietHoursTests
{
    private static readonly DateTimeZone Warsaw = DateTimeZoneProviders.Tzdb["Europe/Warsaw"];
    private static readonly QuietHours Night = new(new LocalTime(22, 0), new LocalTime(7, 0));

    [Theory]
    [InlineData("2026-04-15T19:59:00Z", null)]
    [InlineData("2026-04-15T20:00:00Z", "2026-04-16T05:00:00Z")]
    [InlineData("2026-04-16T04:59:59Z", "2026-04-16T05:00:00Z")]
    [InlineData("2026-04-16T05:00:00Z", null)]
    // Night of the clock's step forward, 29 March 2026 at 01:00 UTC: one hour shorter.
    [InlineData("2026-03-28T21:00:00Z", "2026-03-29T05:00:00Z")]
    [InlineData("2026-03-29T04:59:00Z", "2026-03-29T05:00:00Z")]
    // Night of the step back, 25 October 2026 at 01:00 UTC: one hour longer.
    [InlineData("2026-10-24T20:00:00Z", "2026-10-25T06:00:00Z")]
    [InlineData("2026-10-25T05:30:00Z", "2026-10-25T06:00:00Z")]
    [InlineData("2026-10-25T06:00:00Z", null)]
    public void Night_EndsOnce_AlsoWhenTheClockChanges(string now, string? end) => Assert.Equal(end, EndAt(Night, now));

    [Theory]
    // 02:30 comes twice on 25 October: the quiet ends the first time and stays ended.
    [InlineData("2026-10-25T00:15:00Z", "2026-10-25T00:30:00Z")]
    [InlineData("2026-10-25T00:30:00Z", null)]
    [InlineData("2026-10-25T01:15:00Z", null)]
    // 02:30 does not come on 29 March: it ends at the moment that took its place, 03:30.
    [InlineData("2026-03-29T00:59:00Z", "2026-03-29T01:30:00Z")]
    [InlineData("2026-03-29T01:29:00Z", "2026-03-29T01:30:00Z")]
    [InlineData("2026-03-29T01:30:00Z", null)]
    public void End_AtATimeThatComesTwiceOrNever_IsOneMoment(string now, string? end) =>
        Assert.Equal(end, EndAt(new QuietHours(new LocalTime(22, 0), new LocalTime(2, 30)), now));

    [Theory]
    [InlineData("2026-04-15T10:59:00Z", null)]
    [InlineData("2026-04-15T11:00:00Z", "2026-04-15T13:00:00Z")]
    [InlineData("2026-04-15T13:00:00Z", null)]
    public void Midday_StaysWithinTheDay(string now, string? end) => Assert.Equal(end, EndAt(new QuietHours(new LocalTime(13, 0), new LocalTime(15, 0)), now));

    [Fact]
    public void NoLength_IsRefused() => Assert.Throws<ArgumentException>(() => new QuietHours(new LocalTime(7, 0), new LocalTime(7, 0)));

    // Over a whole year of quarter hours: quiet and its end always agree, and no night is missed.
    [Fact]
    public void EveryQuarterOfAYear_AgreesWithTheClockOnTheWall()
    {
        var nights = new HashSet<Instant>();
        for (var now = Instant.FromUtc(2026, 1, 1, 0, 0); now < Instant.FromUtc(2027, 1, 1, 0, 0); now += Duration.FromMinutes(15))
        {
            var time = now.InZone(Warsaw).TimeOfDay;
            var end = Night.EndAt(now, Warsaw);
            Assert.Equal(time >= Night.From || time < Night.To, end is not null);
            if (end is { } moment)
            {
                Assert.Equal(Night.To, moment.InZone(Warsaw).TimeOfDay);
                Assert.InRange((moment - now).TotalHours, 0.1, 10);
                nights.Add(moment);
            }
        }
        Assert.Equal(366, nights.Count);
    }

    private static string? EndAt(QuietHours quiet, string now) =>
        quiet.EndAt(InstantPattern.ExtendedIso.Parse(now).Value, Warsaw) is { } end ? InstantPattern.ExtendedIso.Format(end) : null;
}
