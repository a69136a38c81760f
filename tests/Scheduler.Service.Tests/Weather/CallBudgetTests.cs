using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Scheduler.Service.Tests.Weather.Support;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Weather;

public sealed class CallBudgetTests : IDisposable
{
    private readonly WeatherBench _bench = new("2026-04-20T10:00:30Z");

    public void Dispose() => _bench.Dispose();

    private static CallBudget Of(WeatherBench bench) => bench.Services.GetRequiredService<CallBudget>();

    private Task<Instant?> TakeAsync(double weight, CallPurpose purpose = CallPurpose.Refresh) =>
        Of(_bench).TakeAsync("open-meteo", weight, purpose, true, default);

    [Fact]
    public async Task Take_MinuteUsedUp_HasRoomInTheNextMinute()
    {
        Assert.Null(await TakeAsync(440));
        Assert.Equal(Instant.FromUtc(2026, 4, 20, 10, 1), await TakeAsync(20));
        Assert.Null(await TakeAsync(10));
        _bench.Clock.AdvanceSeconds(30);
        Assert.Null(await TakeAsync(20));
    }

    [Fact]
    public async Task Take_HourUsedUp_HasRoomInTheNextHour()
    {
        for (var minute = 0; minute < 10; minute++)
        {
            Assert.Null(await TakeAsync(450));
            _bench.Clock.AdvanceMinutes(1);
        }
        Assert.Equal(Instant.FromUtc(2026, 4, 20, 11, 0), await TakeAsync(1));
    }

    [Fact]
    public async Task Take_DayOfOnePurposeUsedUp_LeavesTheReserveOfTheOther()
    {
        await SpendAsync(CallPurpose.Backfill, 6000);
        Assert.Equal(Instant.FromUtc(2026, 4, 21, 0, 0), await TakeAsync(1, CallPurpose.Backfill));
        Assert.Null(await TakeAsync(1, CallPurpose.Refresh));
        await SpendAsync(CallPurpose.Refresh, 2998);
        Assert.Equal(Instant.FromUtc(2026, 4, 21, 0, 0), await TakeAsync(2, CallPurpose.Refresh));
    }

    [Fact]
    public async Task Take_ServiceStartedAgain_RemembersWhatWasSpentAndForbidden()
    {
        Assert.Null(await TakeAsync(440));
        using (var again = new WeatherBench("2026-04-20T10:00:40Z", folder: _bench.Folder))
        {
            Assert.Equal(Instant.FromUtc(2026, 4, 20, 10, 1), await Of(again).TakeAsync("open-meteo", 20, CallPurpose.Refresh, true, default));
            await Of(again).BlockAsync("open-meteo", Instant.FromUtc(2026, 4, 21, 0, 0), default);
        }
        _bench.Clock.AdvanceHours(5);
        Assert.Equal(Instant.FromUtc(2026, 4, 21, 0, 0), await TakeAsync(1));
    }

    [Fact]
    public async Task Take_SourcesApart_DoNotShareABudget()
    {
        Assert.Null(await TakeAsync(450));
        Assert.Null(await Of(_bench).TakeAsync("met-norway", 1, CallPurpose.Refresh, true, default));
    }

    [Fact]
    public async Task Take_PlanWithoutLimits_IsOnlyHeldBackByABlock()
    {
        Assert.Null(await TakeAsync(450));
        Assert.Null(await Of(_bench).TakeAsync("open-meteo", 450, CallPurpose.Refresh, false, default));
        await Of(_bench).BlockAsync("open-meteo", Instant.FromUtc(2026, 4, 20, 11, 0), default);
        Assert.NotNull(await Of(_bench).TakeAsync("open-meteo", 1, CallPurpose.Refresh, false, default));
    }

    // Spent in the morning, so that at night only the day's limit can be the reason.
    private async Task SpendAsync(CallPurpose purpose, double weight)
    {
        _bench.Clock.Reset(Instant.FromUtc(2026, 4, 20, 9, 0));
        await Of(_bench).ChargeAsync("open-meteo", weight, purpose, default);
        _bench.Clock.Reset(Instant.FromUtc(2026, 4, 20, 22, 58));
    }
}
