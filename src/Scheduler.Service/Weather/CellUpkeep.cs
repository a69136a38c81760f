using System.Collections.Concurrent;
using Microsoft.Extensions.Options;
using NodaTime;

namespace Scheduler.Service.Weather;

/// <summary>How one piece of work on a cell ended.</summary>
/// <param name="Changed">The weather of some day is another than before.</param>
/// <param name="Problem">What went wrong, in words for the owner.</param>
/// <param name="RetryAt">Not to be tried before.</param>
internal sealed record CellOutcome(bool Changed, string? Problem = null, Instant? RetryAt = null);

/// <summary>Keeps the days of a cell up to date. What fails leaves the stored days as they are and is shown as the cell's problem.</summary>
internal sealed class CellUpkeep(
    WeatherStore store, DayStore days, IEnumerable<IWeatherSource> sources, OpenMeteoSource openMeteo, IOptions<WeatherOptions> options,
    IClock clock, ILogger<CellUpkeep> log)
{
    private const int UsualPastDays = 7;
    private const int FinalizeBackDays = 27;
    private static readonly Duration FinalizeEvery = Duration.FromDays(7);
    private static readonly Duration UsualRetry = Duration.FromMinutes(15);

    private readonly ConcurrentDictionary<string, SemaphoreSlim> _turns = new();
    private readonly IReadOnlyList<IWeatherSource> _sources =
        [.. options.Value.Sources.SelectMany(name => sources.Where(source => source.Name == name))];

    public bool HasArchive { get; } = options.Value.Sources.Contains(SourceNames.OpenMeteo);

    /// <summary>Whether the cell has something to do by itself, without being asked.</summary>
    public bool IsDue(WeatherCell cell) => NeedsRefresh(cell) || NeedsBackfill(cell) || NeedsFinalizing(cell, asked: false);

    /// <summary>The most urgent piece of work: forecast, then a step of the backfill, then the weekly look at the archive.</summary>
    public Task<CellOutcome> StepAsync(string cellKey, CancellationToken cancel) => InTurnAsync(cellKey, async cell =>
    {
        if (NeedsRefresh(cell))
        {
            var forecast = await RefreshAsync(cell, cancel);
            if (forecast.RetryAt is null || !NeedsBackfill(cell))
                return forecast;
            // The archive is another host: it may well answer while the forecast does not.
            var archive = await BackfillAsync(cell, cancel);
            return archive with { RetryAt = archive.RetryAt ?? forecast.RetryAt };
        }
        if (NeedsBackfill(cell))
            return await BackfillAsync(cell, cancel);
        return NeedsFinalizing(cell, asked: false) ? await FinalizeAsync(cell, cancel) : new CellOutcome(false);
    }, cancel);

    /// <summary>The forecast now, because somebody asked, and the archive where it is due.</summary>
    public Task<CellOutcome> RefreshNowAsync(string cellKey, CancellationToken cancel) => InTurnAsync(cellKey, async cell =>
    {
        var forecast = await RefreshAsync(cell, cancel);
        if (!NeedsFinalizing(cell, asked: true))
            return forecast;
        var archive = await FinalizeAsync(cell, cancel);
        return forecast with { Changed = forecast.Changed || archive.Changed };
    }, cancel);

    /// <summary>Learns the zone and height of a new cell; false when no source could say.</summary>
    public Task<CellOutcome> LocateAsync(string cellKey, CancellationToken cancel) => InTurnAsync(
        cellKey, async cell => await LocatedAsync(cell, cancel) is (null, var outcome) ? outcome! : new CellOutcome(false), cancel);

    private bool NeedsRefresh(WeatherCell cell)
    {
        if (cell.RefreshedAt is not { } last)
            return true;
        var every = options.Value.RefreshInterval;
        return every > Duration.Zero && clock.GetCurrentInstant() >= last + every + Jitter(cell.Key, every);
    }

    private bool NeedsBackfill(WeatherCell cell) => HasArchive && !cell.IsFilled;

    private bool NeedsFinalizing(WeatherCell cell, bool asked) =>
        HasArchive && cell.FilledFrom is not null && (asked || options.Value.RefreshInterval > Duration.Zero)
        && (cell.FinalizedAt is not { } last || clock.GetCurrentInstant() >= last + FinalizeEvery);

    private async Task<CellOutcome> RefreshAsync(WeatherCell cell, CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        var problems = new List<string>();
        Instant? retryAt = null;
        foreach (var source in _sources)
        {
            var (located, unlocated) = source.Name == SourceNames.OpenMeteo ? await LocatedAsync(cell, cancel) : (cell, null);
            cell = located ?? cell;
            var answer = located is null
                ? new WeatherAnswer.Failed(unlocated!.Problem!, unlocated.RetryAt)
                : await source.ForecastAsync(cell, PastDays(cell, now), cancel);
            if (answer is WeatherAnswer.Got { Days.Count: 0 })
                answer = new WeatherAnswer.Failed($"The forecast of {source.Name} holds no complete day.");
            if (answer is WeatherAnswer.Failed failed)
            {
                problems.Add(failed.Reason);
                retryAt = retryAt is null || failed.RetryAt < retryAt ? failed.RetryAt ?? retryAt : retryAt;
                continue;
            }
            var changed = answer is WeatherAnswer.Got got && await KeepAsync(cell, got, problems, cancel);
            await store.SetRefreshedAsync(cell.Key, now, Text(problems), cancel);
            return new CellOutcome(changed, Text(problems));
        }
        await store.SetProblemAsync(cell.Key, Text(problems), cancel);
        return new CellOutcome(false, Text(problems), Later(retryAt));
    }

    private async Task<CellOutcome> BackfillAsync(WeatherCell cell, CancellationToken cancel)
    {
        var (located, outcome) = await LocatedAsync(cell, cancel);
        if (located is null)
            return await ArchiveFailedAsync(cell, new WeatherAnswer.Failed(outcome!.Problem!, outcome.RetryAt), cancel);
        var now = clock.GetCurrentInstant();
        if (Backfill.Next(located, FixedOffset.Today(now, located.OffsetHours)) is not { } span)
            return new CellOutcome(false);
        var isFirst = located.FilledFrom is null;
        var answer = await openMeteo.HistoryAsync(located, span.Start, span.End, withRain: isFirst, CallPurpose.Backfill, cancel);
        if (answer is not WeatherAnswer.Got { Days.Count: > 0 } got)
            return await ArchiveFailedAsync(cell, answer as WeatherAnswer.Failed, cancel);
        var problems = new List<string>();
        var changed = await KeepAsync(located, got, problems, cancel);
        await store.SetFilledAsync(cell.Key, span.Start, cancel);
        await store.SetArchiveProblemAsync(cell.Key, Text(problems), cancel);
        if (isFirst)
            await store.SetFinalizedAsync(cell.Key, now, cancel);
        return new CellOutcome(changed, Text(problems));
    }

    private async Task<CellOutcome> FinalizeAsync(WeatherCell cell, CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        var today = FixedOffset.Today(now, cell.OffsetHours);
        // After an outage the look reaches back to what was seen last, so that no gap stays.
        var lastSeen = FixedOffset.Today(cell.FinalizedAt ?? now, cell.OffsetHours);
        var answer = await openMeteo.HistoryAsync(
            cell, lastSeen.PlusDays(-FinalizeBackDays), today.PlusDays(-DayRanking.FinalAfterDays), withRain: true, CallPurpose.Refresh, cancel);
        if (answer is not WeatherAnswer.Got { Days.Count: > 0 } got)
            return await ArchiveFailedAsync(cell, answer as WeatherAnswer.Failed, cancel);
        var problems = new List<string>();
        var changed = await KeepAsync(cell, got, problems, cancel);
        await store.SetFinalizedAsync(cell.Key, now, cancel);
        await store.SetArchiveProblemAsync(cell.Key, Text(problems), cancel);
        return new CellOutcome(changed, Text(problems));
    }

    private async Task<(WeatherCell? Cell, CellOutcome? Failed)> LocatedAsync(WeatherCell cell, CancellationToken cancel)
    {
        if (cell.UtcOffsetHours is not null || !HasArchive)
            return (cell, null);
        var (place, failed) = await openMeteo.PlaceAsync(cell, cancel);
        if (place is null)
            return (null, new CellOutcome(false, failed!.Reason, Later(failed.RetryAt)));
        await store.SetPlaceAsync(cell.Key, place.TimeZone, place.UtcOffsetHours, place.ElevationM, cancel);
        return (await store.CellAsync(cell.Key, cancel), null);
    }

    private async Task<bool> KeepAsync(WeatherCell cell, WeatherAnswer.Got got, List<string> problems, CancellationToken cancel)
    {
        var today = FixedOffset.Today(clock.GetCurrentInstant(), cell.OffsetHours);
        var changed = await days.MergeAsync(cell.Key, got.Days, today, cancel);
        if (got.ElevationM is { } elevation && cell.ElevationM is null)
            await store.SetElevationIfUnknownAsync(cell.Key, elevation, cancel);
        if (got.ExpiresAt is not null)
            await store.SetFallbackAgeAsync(cell.Key, got.ExpiresAt, got.LastModified, cancel);
        var faulty = got.Refused.Where(day => day.IsFault).ToList();
        if (faulty.Count > 0)
            problems.Add($"{faulty.Count} faulty days were not taken, the first {faulty[0].Date:R}: {faulty[0].Reason}");
        return changed > 0;
    }

    private async Task<CellOutcome> ArchiveFailedAsync(WeatherCell cell, WeatherAnswer.Failed? failed, CancellationToken cancel)
    {
        var problem = failed?.Reason ?? "Open-Meteo: its archive holds no complete day.";
        await store.SetArchiveProblemAsync(cell.Key, problem, cancel);
        return new CellOutcome(false, problem, Later(failed?.RetryAt));
    }

    private async Task<CellOutcome> InTurnAsync(string cellKey, Func<WeatherCell, Task<CellOutcome>> work, CancellationToken cancel)
    {
        var turn = _turns.GetOrAdd(cellKey, _ => new SemaphoreSlim(1));
        await turn.WaitAsync(cancel);
        try
        {
            if (await store.CellAsync(cellKey, cancel) is not { } cell)
                return new CellOutcome(false);
            var outcome = await work(cell);
            if (outcome.Problem is { } problem)
                log.LogWarning("Weather of cell {Cell}: {Problem}", cellKey, problem);
            return outcome;
        }
        finally
        {
            turn.Release();
        }
    }

    private Instant Later(Instant? retryAt) => retryAt ?? clock.GetCurrentInstant() + UsualRetry;

    private static int PastDays(WeatherCell cell, Instant now) =>
        UsualPastDays + (cell.RefreshedAt is { } last ? Math.Max(0, (int)(now - last).TotalDays) : 0);

    private static string? Text(List<string> problems) => problems.Count == 0 ? null : string.Join(" ", problems);

    // The same for a cell every day, so that rounds stay spread; a tenth of the interval at most. String hashes differ from run to run.
    private static Duration Jitter(string key, Duration every) =>
        every * (key.Aggregate(17u, (hash, letter) => hash * 31 + letter) % 1000 / 10000.0);
}
