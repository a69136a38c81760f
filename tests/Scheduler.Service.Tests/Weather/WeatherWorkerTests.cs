using Dapper;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using NodaTime;
using Scheduler.Service.Tests.Weather.Support;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Weather;

public sealed class WeatherWorkerTests : IDisposable
{
    private readonly WeatherBench _bench = new();
    private readonly OpenMeteoFake _upstream;

    public WeatherWorkerTests() => _upstream = new OpenMeteoFake(_bench.Internet, () => _bench.Today);

    public void Dispose() => _bench.Dispose();

    private WeatherWorker Worker => _bench.Services.GetServices<IHostedService>().OfType<WeatherWorker>().Single();

    [Fact]
    public async Task Run_NewGarden_IsFilledAndPlannedInTheBackground()
    {
        await Worker.StartAsync(default);
        var garden = await _bench.AddGardenAsync();
        await _bench.Weather.AttachAsync(garden);
        await UntilAsync(async () => (await _bench.Weather.DaysAsync(garden)).Status.State == "ready");
        await UntilAsync(() => Task.FromResult(_bench.Planner.Planned.Contains(garden)));
        await Worker.StopAsync(default);
    }

    [Fact]
    public async Task Run_ServiceStoppedHalfway_GoesOnAfterTheNextStart()
    {
        var garden = await _bench.AddGardenAsync();
        await _bench.Weather.AttachAsync(garden);
        var key = (await _bench.CellOfAsync(garden)).Key;
        for (var step = 0; step < 3; step++)
            await _bench.Upkeep.StepAsync(key, default);
        Assert.Equal("backfilling", (await _bench.Weather.DaysAsync(garden)).Status.State);

        await Worker.StartAsync(default);
        await UntilAsync(async () => (await _bench.Weather.DaysAsync(garden)).Status.State == "ready");
        await Worker.StopAsync(default);
    }

    [Fact]
    public async Task Run_GardenMadeOnRecordedWeather_GetsRealWeatherUnderNewSettings()
    {
        Guid garden;
        using (var recorded = new WeatherBench(settings: new Dictionary<string, string?> { ["Weather:Sources"] = "recorded" }, folder: _bench.Folder))
        {
            garden = await recorded.AddGardenAsync();
            await recorded.Weather.AttachAsync(garden);
        }
        await Worker.StartAsync(default);
        await UntilAsync(async () => (await _bench.Weather.DaysAsync(garden)).Status.Sources.Any(use => use.Source == "open-meteo"));
        await Worker.StopAsync(default);
    }

    [Fact]
    public async Task Replan_LocalDayTurned_PlansOnlyThoseGardens()
    {
        // 22:30 UTC on 20 April is already the 21st in Berlin.
        _bench.Clock.Reset(Instant.FromUtc(2026, 4, 20, 22, 30));
        var east = await _bench.AddGardenAsync(timeZone: "Europe/Berlin");
        var west = await _bench.AddGardenAsync(timeZone: "Atlantic/Azores");
        await using (var connection = await _bench.Database.OpenAsync())
            await connection.ExecuteAsync("UPDATE gardens SET planned_for = '2026-04-20'");
        await Worker.ReplanTurnedDaysAsync(default);
        Assert.Equal([east], _bench.Planner.Planned);
        _bench.Clock.AdvanceHours(2);
        await Worker.ReplanTurnedDaysAsync(default);
        Assert.Equal([east, east, west], _bench.Planner.Planned.OrderBy(id => id == west));
    }

    [Theory]
    [InlineData("PT6H", 5, false)]
    [InlineData("PT6H", 7, true)]
    [InlineData("PT0S", 300, false)]
    public async Task IsDue_AfterSomeHours_FollowsTheSetting(string refreshEvery, int hours, bool due)
    {
        using var bench = new WeatherBench(settings: new Dictionary<string, string?> { ["Weather:RefreshEvery"] = refreshEvery });
        _ = new OpenMeteoFake(bench.Internet, () => bench.Today);
        var garden = await bench.AddGardenAsync();
        await bench.Weather.AttachAsync(garden);
        await bench.WorkAsync(garden);
        bench.Clock.AdvanceHours(hours);
        Assert.Equal(due, bench.Upkeep.IsDue(await bench.CellOfAsync(garden)));
    }

    private static async Task UntilAsync(Func<Task<bool>> condition)
    {
        var deadline = DateTime.UtcNow.AddSeconds(30);
        while (!await condition())
        {
            Assert.True(DateTime.UtcNow < deadline, "It did not come to pass within 30 s.");
            await Task.Delay(50);
        }
    }
}
