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
        // A new name or choice of events must not make calendars take every event for a changed one.
        var changed = feed with
        {
            Settings = settings,
            ChangedAt = LooksLike(feed.Settings, settings) ? feed.ChangedAt : Stamp.After(feed.ChangedAt, clock.GetCurrentInstant())
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

    private static bool LooksLike(FeedSettings one, FeedSettings other) =>
        one.Reminders.SequenceEqual(other.Reminders) && (one.Gathered, one.Span, one.At) == (other.Gathered, other.Span, other.At);

    private async Task<Feed> RebuiltAsync(Feed feed, CancellationToken cancel)
    {
        await builder.RebuildAsync(feed.Id, cancel);
        return await store.FindAsync(feed.AccountId, feed.Id, cancel) ?? feed;
    }
}
