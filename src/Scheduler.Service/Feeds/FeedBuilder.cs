using System.Buffers.Text;
using System.Security.Cryptography;
using Microsoft.Extensions.Options;
using NodaTime;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Feeds;

/// <summary>
/// Brings the stored bytes of feeds up to date, once per change and off the path of any poll. The day is looked at
/// only to choose which windows are near enough to show.
/// </summary>
public sealed class FeedBuilder(FeedBodies bodies, IOptions<FeedOptions> options, IClock clock) : IFeedBuilder
{
    public async Task RebuildForGardenAsync(Guid gardenId, CancellationToken cancel = default)
    {
        foreach (var id in await bodies.CoveringAsync(gardenId, cancel))
            await RebuildAsync(id, cancel);
    }

    public Task RebuildAsync(Guid feedId, CancellationToken cancel = default)
    {
        var now = clock.GetCurrentInstant();
        // A window dates from its growth year or the year after, and is shown for little more than two months.
        return bodies.ReplaceAsync(feedId, (feed, rows, kept) => Rebuilt(feed, rows, kept, now), now.InUtc().Year - 2, cancel);
    }

    private FeedTurn Rebuilt(Feed feed, FeedRows rows, FeedBody? kept, Instant now)
    {
        var today = now.InUtc().Date;
        var look = Look(feed, rows);
        var drafts = Drafts(feed.Settings, look, rows, now);
        var turn = FeedLedger.Turn(drafts, rows.Told, new GoneEvents(feed.Settings, rows.Windows, drafts, today).Of, now);
        var bytes = CalendarWriter.Write(look.Name, look.Host, turn.Shown);
        if (kept is not null && kept.Body.AsSpan().SequenceEqual(bytes))
            return new FeedTurn(turn, null);
        return new FeedTurn(turn, new FeedBody
        {
            Id = feed.Id,
            Body = bytes,
            Etag = Base64Url.EncodeToString(SHA256.HashData(bytes).AsSpan(0, 18)),
            BodyChangedAt = Stamp.After(kept?.BodyChangedAt, now)
        });
    }

    private FeedLook Look(Feed feed, FeedRows rows)
    {
        // A garden that is gone keeps the zone in which its events were told.
        var zones = new Dictionary<Guid, string>(rows.Zones);
        foreach (var told in rows.Told.Values.Select(told => told.Event).Where(told => told.Span.Zone is not null))
            zones.TryAdd(told.GardenId, told.Span.Zone!);
        return new FeedLook(feed.Settings.Name, options.Value.Host, feed.Settings.Reminders, feed.ChangedAt)
        {
            Span = feed.Settings.Span,
            At = feed.Settings.At,
            Zones = zones
        };
    }

    private static List<EventDraft> Drafts(FeedSettings settings, FeedLook look, FeedRows rows, Instant now)
    {
        var windows = rows.Windows.Where(window => settings.ShowsWindows && settings.Shows(window.Key.Technique));
        var visits = rows.Visits.Where(visit => settings.ShowsPlan && settings.Shows(visit.Window.Key.Technique));
        return settings.Gathered is FeedGathering.Each
            ? [.. windows.Where(window => FeedSelection.Shows(window, now)).Select(window => EachEvents.Of(look, window)), .. visits.Select(visit => EachEvents.Of(look, visit))]
            : [.. GatheredEvents.OfWindows(look, windows, rows.Told, now.InUtc().Date), .. GatheredEvents.OfVisits(look, visits, rows.Told)];
    }
}
