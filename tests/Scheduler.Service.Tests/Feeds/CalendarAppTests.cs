using Scheduler.Service.Feeds;

namespace Scheduler.Service.Tests.Feeds;

public sealed class CalendarAppTests
{
    // Names as such programs send them; the first from the report named in the feed notes, the others from memory.
    [Theory]
    [InlineData("Google-Calendar-Importer", CalendarAppKind.Account)]
    [InlineData("iOS/17.4 (21E219) dataaccessd/1.0", CalendarAppKind.Device)]
    [InlineData("macOS/14.4 (23E214) CalendarAgent/1000", CalendarAppKind.Desktop)]
    [InlineData("ICSx5/2.2.1 (okhttp) Android/14", CalendarAppKind.Bridge)]
    [InlineData("Mozilla/5.0 (X11; Linux x86_64; rv:128.0) Gecko/20100101 Thunderbird/128.0", CalendarAppKind.Desktop)]
    [InlineData("Evolution/3.52.0", CalendarAppKind.Desktop)]
    [InlineData("Mozilla/5.0 (Linux) Nextcloud Server Crawler", CalendarAppKind.Server)]
    [InlineData("vdirsyncer/0.19.3", CalendarAppKind.Script)]
    [InlineData("Mozilla/5.0 (X11; Linux x86_64; rv:128.0) Gecko/20100101 Firefox/128.0", CalendarAppKind.Browser)]
    [InlineData("", CalendarAppKind.Other)]
    public void KindOf_UserAgent(string userAgent, CalendarAppKind kind) => Assert.Equal(kind, CalendarApp.KindOf(userAgent));

    [Fact]
    public void All_EveryKind_SaysWhatBecomesOfAlarmsAndHowOftenItComes()
    {
        Assert.Equal(Enum.GetValues<CalendarAppKind>(), CalendarApp.All.Select(app => app.Kind));
        Assert.All(CalendarApp.All, app => Assert.True(app.Alarms.Length > 20 && app.Refresh.Length > 20));
    }
}
