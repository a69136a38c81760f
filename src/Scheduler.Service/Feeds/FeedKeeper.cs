using NodaTime;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Feeds;

/// <summary>Makes, changes and re-addresses feeds, and has their bytes built before anybody is told.</summary>
public sealed class FeedKeeper(FeedStore store, FeedTokens tokens, IFeedBuilder builder, IClock clock)
{
    public async Task<Feed> CreateAsync(Guid accountId, FeedSettings settings, CancellationToken cancel = default)
    {
        var token = FeedTokens.New();
        var now = Stamp.After(null, clock.GetCurrentInstant());
        var feed = new Feed
        {
            Id = Guid.NewGuid(),
            AccountId = accountId,
            Settings = settings,
            TokenSealed = tokens.Seal(token),
            CreatedAt = now,
            ChangedAt = now
        };
        await store.AddAsync(feed, FeedTokens.Hash(token), cancel);
        return await RebuiltAsync(feed, cancel);
    }

    public async Task<Feed> ChangeAsync(Feed feed, FeedSettings settings, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(feed);
        ArgumentNullException.ThrowIfNull(settings);
        // Only alarms are part of an event; a new name or choice must not make calendars take every event for a changed one.
        var alarmsChanged = !feed.Settings.Reminders.SequenceEqual(settings.Reminders);
        var changed = feed with
        {
            Settings = settings,
            ChangedAt = alarmsChanged ? Stamp.After(feed.ChangedAt, clock.GetCurrentInstant()) : feed.ChangedAt
        };
        await store.ChangeAsync(changed, cancel);
        return await RebuiltAsync(changed, cancel);
    }

    /// <summary>A new address; the old one is unknown from this moment.</summary>
    public async Task<Feed> RotateAsync(Feed feed, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(feed);
        var token = FeedTokens.New();
        var rotated = feed with { TokenSealed = tokens.Seal(token) };
        await store.RotateAsync(feed.Id, FeedTokens.Hash(token), rotated.TokenSealed, cancel);
        return rotated;
    }

    private async Task<Feed> RebuiltAsync(Feed feed, CancellationToken cancel)
    {
        await builder.RebuildAsync(feed.Id, cancel);
        return await store.FindAsync(feed.AccountId, feed.Id, cancel) ?? feed;
    }
}
