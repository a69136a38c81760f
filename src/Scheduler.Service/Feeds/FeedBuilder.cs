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

    /// <summary>Null when the bytes are those that are kept.</summary>
    private FeedBody? Rebuilt(Feed feed, FeedRows rows, FeedBody? kept, Instant now)
    {
        var look = new FeedLook(feed.Settings.Name, options.Value.Host, feed.Settings.Reminders, feed.ChangedAt);
        var windows = rows.Windows.Where(window => feed.Settings.ShowsWindows && feed.Settings.Shows(window.Key.Technique) && FeedSelection.Shows(window, now));
        var visits = rows.Visits.Where(visit => feed.Settings.Shows(visit.Window.Key.Technique));
        var bytes = CalendarWriter.Write(look, windows, visits);
        if (kept is not null && kept.Body.AsSpan().SequenceEqual(bytes))
            return null;
        return new FeedBody
        {
            Id = feed.Id,
            Body = bytes,
            Etag = Base64Url.EncodeToString(SHA256.HashData(bytes).AsSpan(0, 18)),
            BodyChangedAt = Stamp.After(kept?.BodyChangedAt, now)
        };
    }
}
