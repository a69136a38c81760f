using NodaTime;

namespace Scheduler.Service.Feeds;

/// <summary>A feed as its owner sees it.</summary>
/// <param name="Url">The secret address; null when the sealing keys are lost, and a rotation makes a new one.</param>
/// <param name="WebcalUrl">The same under the scheme that opens a calendar app.</param>
/// <param name="ContentChangedAt">When a poll last began to see something new.</param>
/// <param name="LastFetchedBy">The calendar app's own name for itself: the one honest sign of how fresh a phone is.</param>
public sealed record FeedAnswer(
    Guid Id, string Name, IReadOnlyList<Guid>? GardenIds, IReadOnlyList<string>? Techniques, FeedContent Content, IReadOnlyList<string> Reminders,
    string? Url, string? WebcalUrl, Instant CreatedAt, Instant? ContentChangedAt, Instant? LastFetchedAt, string? LastFetchedBy)
{
    public static FeedAnswer Of(Feed feed, string? url)
    {
        ArgumentNullException.ThrowIfNull(feed);
        var settings = feed.Settings;
        return new FeedAnswer(
            feed.Id, settings.Name, settings.GardenIds, settings.Techniques, settings.Content, [.. settings.Reminders.Select(reminder => reminder.Text)],
            url, url is null ? null : "webcal" + url[url.IndexOf("://", StringComparison.Ordinal)..],
            feed.CreatedAt, feed.BodyChangedAt, feed.LastFetchedAt, feed.LastFetchedBy);
    }
}
