using NodaTime;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Tests.Hosting;

public sealed class ServiceClockTests
{
    [Theory]
    [InlineData("2026-04-15", 2026, 4, 15, 12)]
    [InlineData("2026-04-15T06:00:00Z", 2026, 4, 15, 6)]
    public void AsOf_DateOrInstant_StopsThere(string asOf, int year, int month, int day, int hour) =>
        Assert.Equal(Instant.FromUtc(year, month, day, hour, 0), ServiceClock.Parse(asOf));

    [Theory]
    [InlineData("tomorrow")]
    [InlineData("2026-02-30")]
    [InlineData("15.4.2026")]
    public void AsOf_AnythingElse_SaysWhatToGive(string asOf)
    {
        var fault = Assert.Throws<InvalidOperationException>(() => ServiceClock.Parse(asOf));
        Assert.Contains("2026-04-01", fault.Message, StringComparison.Ordinal);
    }
}
