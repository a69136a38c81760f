using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Roads;

namespace Scheduler.Service.Tests.Roads;

public class DigestTimesTests
{
    private static readonly DateTimeZone Warsaw = DateTimeZoneProviders.Tzdb["Europe/Warsaw"];

    [Theory]
    [InlineData("2026-04-15T04:59:00Z", "2026-04-14", "2026-04-15T05:00:00Z")]
    [InlineData("2026-04-15T05:00:00Z", "2026-04-15", "2026-04-16T05:00:00Z")]
    // Seven o'clock is 05:00 UTC in summer time and 06:00 after it.
    [InlineData("2026-10-24T12:00:00Z", "2026-10-24", "2026-10-25T06:00:00Z")]
    [InlineData("2026-03-28T12:00:00Z", "2026-03-28", "2026-03-29T05:00:00Z")]
    public void Daily_FallsDueAtTheHourOnTheWall(string now, string last, string next) => Is(new DigestTimes(new LocalTime(7, 0), null), now, last, next);

    [Theory]
    // 15 April 2026 is a Wednesday.
    [InlineData("2026-04-15T12:00:00Z", "2026-04-12", "2026-04-19T16:30:00Z")]
    [InlineData("2026-04-19T16:29:00Z", "2026-04-12", "2026-04-19T16:30:00Z")]
    [InlineData("2026-04-19T16:30:00Z", "2026-04-19", "2026-04-26T16:30:00Z")]
    public void Weekly_FallsDueOnItsDay(string now, string last, string next) => Is(new DigestTimes(new LocalTime(18, 30), IsoDayOfWeek.Sunday), now, last, next);

    [Theory]
    // 02:30 does not come on 29 March and comes twice on 25 October 2026: one digest each.
    [InlineData("2026-03-29T01:29:00Z", "2026-03-28", "2026-03-29T01:30:00Z")]
    [InlineData("2026-03-29T01:30:00Z", "2026-03-29", "2026-03-30T00:30:00Z")]
    [InlineData("2026-10-25T00:30:00Z", "2026-10-25", "2026-10-26T01:30:00Z")]
    [InlineData("2026-10-25T01:30:00Z", "2026-10-25", "2026-10-26T01:30:00Z")]
    public void Hour_ThatComesTwiceOrNever_IsOneMoment(string now, string last, string next) => Is(new DigestTimes(new LocalTime(2, 30), null), now, last, next);

    private static void Is(DigestTimes digest, string now, string last, string next)
    {
        var moment = InstantPattern.ExtendedIso.Parse(now).Value;
        Assert.Equal(LocalDatePattern.Iso.Parse(last).Value, digest.LastDue(moment, Warsaw));
        Assert.Equal(next, InstantPattern.ExtendedIso.Format(digest.NextAfter(moment, Warsaw)));
    }
}
