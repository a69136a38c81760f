using NodaTime;

namespace Scheduler.Service.Roads;

/// <summary>
/// One round over all roads: sends what is due, writes down how it went, and says when to look again. Several workers may run it at
/// once, also in several processes.
/// </summary>
public sealed class RoadRun(
    Outbox outbox, RoadSeal seal, IEnumerable<IRoadCarrier> carriers, IClock clock, TimeProvider time, ILogger<RoadRun> log)
{
    /// <summary>Longer than the longest try of any carrier; renewed before each.</summary>
    private static readonly Duration ClaimedFor = Duration.FromMinutes(3);

    private static readonly Duration FirstWait = Duration.FromMinutes(1);
    private static readonly Duration LongestWait = Duration.FromHours(1);
    private static readonly Duration LongestAskedWait = Duration.FromDays(1);

    private readonly Dictionary<RoadKind, IRoadCarrier> _carriers = carriers.ToDictionary(carrier => carrier.Kind);

    /// <summary>The moment of the next thing known to fall due; null: nothing waits.</summary>
    public async Task<Instant?> DrainAsync(CancellationToken cancel = default)
    {
        var next = new List<Instant>();
        foreach (var road in await outbox.DueAsync(clock.GetCurrentInstant(), cancel))
        {
            var claim = Guid.NewGuid().ToString("N");
            if (await ClaimAsync(road.Id, claim, cancel) is not { } mine)
                continue;
            try
            {
                if (await WorkAsync(mine, claim, cancel) is { } later)
                    next.Add(later);
            }
            catch (Exception fault) when (!cancel.IsCancellationRequested)
            {
                // A fault in one road must not end the sending of all others: it is logged and tried again next round.
                RoadRunMessages.Broke(log, road.Kind, road.Id, fault.GetType().Name, fault.StackTrace);
            }
            finally
            {
                await outbox.ReleaseAsync(road.Id, claim);
            }
        }
        if (await outbox.NextTryAsync(clock.GetCurrentInstant(), cancel) is { } retry)
            next.Add(retry);
        return next.Count > 0 ? next.Min() : null;
    }

    /// <summary>Wait after so many failures in a row: one minute, doubled each time, at most an hour; longer if the other end asks for it.</summary>
    internal static Duration WaitAfter(int failures, Duration? asked)
    {
        var usual = Duration.Min(FirstWait * Math.Pow(2, Math.Clamp(failures - 1, 0, 10)), LongestWait);
        return asked is { } wait ? Duration.Max(usual, Duration.Min(wait, LongestAskedWait)) : usual;
    }

    /// <summary>The zone of a road's hours.</summary>
    internal static DateTimeZone ZoneOf(RoadSettings settings, IReadOnlyList<(Guid Id, string? TimeZone)> gardens)
    {
        var id = settings.TimeZone ?? gardens.FirstOrDefault(garden => settings.Covers(garden.Id) && garden.TimeZone is not null).TimeZone;
        return (id is null ? null : DateTimeZoneProviders.Tzdb.GetZoneOrNull(id)) ?? DateTimeZone.Utc;
    }

    private async Task<Instant?> WorkAsync(Road road, string claim, CancellationToken cancel)
    {
        var zone = ZoneOf(road.Settings, await outbox.GardensAsync(road.AccountId, cancel));
        var packed = ParcelPacker.Pack(road, await outbox.ItemsAsync(road.Id, cancel), clock.GetCurrentInstant(), zone);
        var failures = road.Failures;
        foreach (var parcel in packed.Parcels)
        {
            // Held anew before each try; lost or switched off meanwhile, the rest is not ours to send.
            if (await ClaimAsync(road.Id, claim, cancel) is null)
                return null;
            var carried = seal.Open(road.TargetSealed) is { } target
                ? await _carriers[road.Kind].SendAsync(road, target, parcel, cancel)
                : Carried.Failed(RoadError.KeysLost);
            var now = clock.GetCurrentInstant();
            if (carried.Error is null)
            {
                await outbox.ArrivedAsync(road.Id, parcel, now);
                failures = 0;
                continue;
            }
            RoadRunMessages.NotSent(log, road.Kind, road.Id, failures + 1);
            var waitUntil = now + WaitAfter(failures + 1, carried.Wait);
            await outbox.FailedAsync(road.Id, parcel, carried.Error, now, carried.IsGone ? null : waitUntil);
            return carried.IsGone ? null : waitUntil;
        }
        if (packed.DigestOn is { } digestOn && packed.Parcels.All(parcel => parcel.DigestOn is null))
            await outbox.DigestDoneAsync(road.Id, digestOn);
        return packed.Next;
    }

    private Task<Road?> ClaimAsync(Guid roadId, string claim, CancellationToken cancel)
    {
        var real = Instant.FromDateTimeOffset(time.GetUtcNow());
        return outbox.ClaimAsync(roadId, claim, clock.GetCurrentInstant(), real, real + ClaimedFor, cancel);
    }
}

internal static partial class RoadRunMessages
{
    // Neither address nor error text: both may hold what is secret.
    [LoggerMessage(Level = LogLevel.Error, Message = "Work on {Kind} road {RoadId} broke off with {Fault}: {Trace}")]
    public static partial void Broke(ILogger log, RoadKind kind, Guid roadId, string fault, string? trace);

    [LoggerMessage(Level = LogLevel.Warning, Message = "Nothing arrived by {Kind} road {RoadId}, {Failures} times in a row")]
    public static partial void NotSent(ILogger log, RoadKind kind, Guid roadId, int failures);
}
