using System.Collections.Concurrent;
using Microsoft.Extensions.Options;
using NodaTime;

namespace Scheduler.Service.Weather;

/// <summary>
/// In the background: fills new cells, refreshes and finalizes the others, and has gardens replanned when their weather changed or
/// their local day has turned.
/// </summary>
internal sealed class WeatherWorker(
    WeatherQueue queue, CellUpkeep upkeep, WeatherStore store, GardenWeather weather, GardenReplanner replanner,
    IOptions<WeatherOptions> options, IClock clock, ILogger<WeatherWorker> log) : BackgroundService
{
    private static readonly TimeSpan Round = TimeSpan.FromMinutes(1);

    private readonly ConcurrentDictionary<string, Instant> _notBefore = new();

    protected override Task ExecuteAsync(CancellationToken stoppingToken) =>
        Task.WhenAll(WorkAsync(stoppingToken), WatchAsync(stoppingToken));

    private async Task WorkAsync(CancellationToken cancel)
    {
        await foreach (var key in queue.TakeAllAsync(cancel))
            await GuardAsync(() => StepAsync(key, cancel), $"cell {key}", cancel);
    }

    private async Task StepAsync(string key, CancellationToken cancel)
    {
        var outcome = await upkeep.StepAsync(key, cancel);
        if (outcome.RetryAt is { } retryAt)
            _notBefore[key] = retryAt;
        else
            _notBefore.TryRemove(key, out _);
        if (outcome.Changed)
            await replanner.OfCellAsync(key, cancel);
        if (outcome.RetryAt is null && await store.CellAsync(key, cancel) is { } cell && upkeep.IsDue(cell))
            queue.Add(key);
    }

    private async Task WatchAsync(CancellationToken cancel)
    {
        using var timer = new PeriodicTimer(Round);
        do
        {
            await GuardAsync(() => weather.AttachStraysAsync(cancel), "gardens without a cell", cancel);
            await GuardAsync(() => QueueDueCellsAsync(cancel), "the round of cells", cancel);
            await GuardAsync(() => ReplanTurnedDaysAsync(cancel), "the round of gardens", cancel);
        }
        while (await timer.WaitForNextTickAsync(cancel));
    }

    internal async Task QueueDueCellsAsync(CancellationToken cancel)
    {
        if (options.Value.Sources.Count == 0 || options.Value.AllRecorded)
            return;
        var now = clock.GetCurrentInstant();
        foreach (var cell in await store.CellsInUseAsync(cancel))
        {
            if (upkeep.IsDue(cell) && (!_notBefore.TryGetValue(cell.Key, out var notBefore) || notBefore <= now))
                queue.Add(cell.Key);
        }
    }

    internal async Task ReplanTurnedDaysAsync(CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        foreach (var garden in await store.GardensAsync(cancel))
        {
            if (garden.PlannedFor != GardenDay.Today(garden, now))
                await GuardAsync(() => replanner.OfGardenAsync(garden.Id, cancel), $"garden {garden.Id:N}", cancel);
        }
    }

    // A fault in one cell or garden must not end the work on all others, nor the service: it is logged and tried again next round.
    private async Task GuardAsync(Func<Task> work, string what, CancellationToken cancel)
    {
        try
        {
            await work();
        }
        catch (Exception fault) when (!cancel.IsCancellationRequested)
        {
            log.LogError(fault, "Background work on {What} failed.", what);
        }
    }
}
