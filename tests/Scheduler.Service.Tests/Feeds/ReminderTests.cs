using Scheduler.Service.Feeds;

namespace Scheduler.Service.Tests.Feeds;

public sealed class ReminderTests
{
    [Theory]
    [InlineData("P1D", 1, 0)]
    [InlineData("PT15H", 0, 900)]
    [InlineData("P1W", 7, 0)]
    [InlineData("P1DT2H30M", 1, 150)]
    [InlineData("PT120S", 0, 2)]
    [InlineData("PT0S", 0, 0)]
    [InlineData("P30D", 30, 0)]
    [InlineData("PT720H", 0, 43200)]
    public void Parse_Durations_GiveDaysAndMinutes(string text, int days, int minutes)
    {
        var reminder = Reminder.Parse(text);
        Assert.NotNull(reminder);
        Assert.Equal((days, minutes), (reminder.Days, reminder.Minutes));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("P")]
    [InlineData("PT")]
    [InlineData("P1DT")]
    [InlineData("P1H")]
    [InlineData("-P1D")]
    [InlineData("P1M")]
    [InlineData("P1Y")]
    [InlineData("PT90S")]
    [InlineData("PT1.5H")]
    [InlineData("P30DT1M")]
    [InlineData("P31D")]
    [InlineData("P1D\n")]
    [InlineData("p1d")]
    [InlineData("PT99999999999999999999H")]
    public void Parse_AnythingElse_Refused(string? text) => Assert.Null(Reminder.Parse(text));
}
