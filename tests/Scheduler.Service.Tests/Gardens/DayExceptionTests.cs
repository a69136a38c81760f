using NodaTime;
using Scheduler.Service.Gardens;

namespace Scheduler.Service.Tests.Gardens;

public class DayExceptionTests
{
    private static readonly LocalDate Saturday = new(2026, 5, 2);

    [Fact]
    public void FreeTime_TheLastExceptionThatFitsCountsElseTheWeekday()
    {
        var free = new FreeTime(
            [new WorkDay(IsoDayOfWeek.Saturday, 120)],
            [new DayException(Saturday, Saturday.PlusDays(13), 0), new DayException(Saturday.PlusDays(7), null, 45)]);
        Assert.Equal(
            [120, 0, 0, 45, 0, 120],
            new[] { -7, 0, 3, 7, 13, 14 }.Select(days => free.MinutesOn(Saturday.PlusDays(days))));
        Assert.False(free.IsUnknown);
        Assert.True(new FreeTime([], [new DayException(Saturday, null, 0)]).IsUnknown);
    }
}
