using Microsoft.Extensions.Options;
using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Weather;

/// <summary>All days of a garden with their sources.</summary>
internal sealed record GardenRecord(IReadOnlyList<GardenDay> Days, WeatherStatus Status, LocalDate Today);

/// <summary>Joins what the cell knows, the garden's height and the owner's readings.</summary>
internal sealed class GardenWeather(
    WeatherStore store, DayStore days, ReadingStore readings, RecordedSource recorded, CellUpkeep upkeep, WeatherQueue queue,
    GardenReplanner replanner, IOptions<WeatherOptions> options, IClock clock) : IGardenWeather
{
    private const string RecordedCell = "recorded:";

    /// <summary>Gardens that differ more from their cell, in m, get a small cell of their own, as one air no longer covers both.</summary>
    private const double LargestHeightDifferenceM = 400;

    private const double SmallCellDegrees = 0.02;

    private static readonly TimeSpan LongestWaitForPlace = TimeSpan.FromSeconds(4);
    private static readonly LocalDate Earliest = new(1850, 1, 1);
    private static readonly LocalDate Latest = new(9000, 1, 1);
    private static readonly Duration ShortestStale = Duration.FromHours(24);

    public async Task AttachAsync(Guid gardenId, CancellationToken cancel = default)
    {
        if (await store.GardenAsync(gardenId, cancel) is not { } garden)
            return;
        var sunZone = FixedOffset.ZoneId(FixedOffset.OfLongitude(garden.Longitude));
        if (IsRecorded(garden))
        {
            await store.AttachAsync(garden.Id, RecordedCell + recorded.PlaceFor(garden.Latitude).Id, sunZone, null, cancel);
            return;
        }
        if (options.Value.Sources.Count == 0)
        {
            await store.AttachAsync(garden.Id, null, sunZone, null, cancel);
            return;
        }
        var cell = await FindOrMakeAsync(garden, GridCell.DefaultSizeDegrees, cancel);
        if (cell.ElevationM is { } cellM && garden.ElevationM is { } gardenM && Math.Abs(cellM - gardenM) > LargestHeightDifferenceM)
            cell = await FindOrMakeAsync(garden, SmallCellDegrees, cancel);
        await store.AttachAsync(garden.Id, cell.Key, upkeep.HasArchive ? cell.TimeZone : sunZone, cell.ElevationM, cancel);
        queue.Add(cell.Key);
    }

    /// <summary>Gardens that were made under other settings, without a network source, get their cell now.</summary>
    internal async Task AttachStraysAsync(CancellationToken cancel)
    {
        if (options.Value.Sources.Count == 0)
            return;
        foreach (var garden in await store.GardensAsync(cancel))
        {
            if (!IsRecorded(garden) && (garden.CellKey is null || garden.CellKey.StartsWith(RecordedCell, StringComparison.Ordinal)))
                await AttachAsync(garden.Id, cancel);
        }
    }

    public async Task<GardenDays> DaysAsync(Guid gardenId, CancellationToken cancel = default)
    {
        var record = await RecordAsync(gardenId, cancel);
        return new GardenDays([.. record.Days.Select(day => day.Day)], record.Status);
    }

    public async Task<bool> RefreshAsync(Guid gardenId, CancellationToken cancel = default)
    {
        if (await store.GardenAsync(gardenId, cancel) is not { CellKey: { } key } garden || IsRecorded(garden))
            return false;
        var outcome = await upkeep.RefreshNowAsync(key, cancel);
        if (outcome.Changed)
            await replanner.OfCellAsync(key, cancel);
        if (await store.CellAsync(key, cancel) is { } cell && upkeep.IsDue(cell))
            queue.Add(key);
        return outcome.Changed;
    }

    internal async Task<GardenRecord> RecordAsync(Guid gardenId, CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        if (await store.GardenAsync(gardenId, cancel) is not { } garden)
            return new GardenRecord([], new WeatherStatus("none", null, 0, 0, [], null), now.InUtc().Date);
        var today = GardenDay.Today(garden, now);
        var own = await readings.ReadAsync(gardenId, cancel);
        if (IsRecorded(garden))
            return OfRecorded(garden, own, today);

        var cell = garden.CellKey is { } key ? await store.CellAsync(key, cancel) : null;
        var known = cell is null ? [] : await days.ReadAsync(cell.Key, Earliest, Latest, cancel);
        var addC = Lapse.AdjustC(cell?.ElevationM ?? 0, garden.ElevationM ?? cell?.ElevationM ?? 0);
        var all = GardenDay.WithReadings([.. GardenDay.Adjusted(known, cell?.ElevationM is null ? 0 : addC)], own);
        var used = all.Select(day => day.Source).Distinct().Order(StringComparer.Ordinal).Select(Attribution.Of).ToList();
        return new GardenRecord(all, Status(cell, all.Count, used, today, now), today);
    }

    private GardenRecord OfRecorded(WeatherGarden garden, IReadOnlyList<DailyTemperature> own, LocalDate today)
    {
        var place = recorded.PlaceFor(garden.Latitude);
        var addC = Lapse.AdjustC(place.ElevationM, garden.ElevationM ?? place.ElevationM);
        // Recorded weather is as new as the day: a later moment would change answers that say the same.
        var asOf = GardenDay.ZoneOf(garden).AtStartOfDay(today).ToInstant();
        var shown = recorded.Days(garden.Latitude, today).Select(day => new SourceDay(
            day.Date, day.MinC, day.MaxC, null, day.PrecipMm, null, null, day.Kind, SourceNames.Recorded, day.Kind == DayKind.Observed, asOf));
        var all = GardenDay.WithReadings([.. GardenDay.Adjusted(shown, addC)], own);
        List<SourceUse> used = own.Count > 0 ? [Attribution.Of(SourceNames.Reading)] : [];
        used.Add(Attribution.OfRecorded(place));
        return new GardenRecord(all, new WeatherStatus("ready", asOf, Backfill.YearsWanted, Backfill.YearsWanted, used, null), today);
    }

    private WeatherStatus Status(WeatherCell? cell, int count, IReadOnlyList<SourceUse> used, LocalDate today, Instant now)
    {
        if (cell is null)
            return new WeatherStatus(count == 0 ? "none" : "ready", null, 0, 0, used, null);
        var stale = Duration.Max(ShortestStale, options.Value.RefreshInterval * 2);
        var state =
            count == 0 ? "none"
            : cell.RefreshedAt is { } last && now - last > stale ? "stale"
            : upkeep.HasArchive && !cell.IsFilled ? "backfilling"
            : "ready";
        return new WeatherStatus(
            state, cell.RefreshedAt, Backfill.YearsDone(cell, today), upkeep.HasArchive ? Backfill.YearsWanted : 0, used, cell.Problem);
    }

    private async Task<WeatherCell> FindOrMakeAsync(WeatherGarden garden, double sizeDegrees, CancellationToken cancel)
    {
        var square = GridCell.Of(garden.Latitude, garden.Longitude, sizeDegrees);
        if (await store.CellAsync(square.Key, cancel) is { UtcOffsetHours: not null } known)
            return known;
        var now = clock.GetCurrentInstant();
        var zone = garden.TimeZone is null ? null : DateTimeZoneProviders.Tzdb.GetZoneOrNull(garden.TimeZone);
        // A source that says the zone is believed before the owner, as the cell is shared; without one the owner is.
        int? offset = upkeep.HasArchive ? null
            : zone is null ? FixedOffset.OfLongitude(square.CenterLongitude) : FixedOffset.StandardHours(zone, now);
        await store.AddCellAsync(
            new WeatherCell
            {
                Key = square.Key,
                Latitude = square.CenterLatitude,
                Longitude = square.CenterLongitude,
                UtcOffsetHours = offset,
                WantedFrom = Backfill.WantedFrom(square.CenterLatitude, now.InUtc().Date)
            },
            cancel);
        await TryLocateAsync(square.Key, cancel);
        return (await store.CellAsync(square.Key, cancel))!;
    }

    // Whoever makes a garden waits a moment for its zone and height, but not for a source that is down.
    private async Task TryLocateAsync(string cellKey, CancellationToken cancel)
    {
        using var brief = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        brief.CancelAfter(LongestWaitForPlace);
        try
        {
            await upkeep.LocateAsync(cellKey, brief.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
        }
    }

    private bool IsRecorded(WeatherGarden garden) => garden.Recorded || options.Value.AllRecorded;
}
