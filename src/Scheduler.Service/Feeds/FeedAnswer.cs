using System.ComponentModel;
using NodaTime;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Feeds;

/// <summary>A feed as its owner sees it.</summary>
/// <param name="Url">The secret address; null when the sealing keys are lost, and a rotation makes a new one.</param>
/// <param name="WebcalUrl">The same under the scheme that opens a calendar app.</param>
/// <param name="ContentChangedAt">When a poll last began to see something new.</param>
/// <param name="LastFetchedBy">The kind of calendar app that came last: with the time the one honest sign of how fresh a phone is.</param>
/// <param name="CalendarApps">What each kind does with reminders and how often it fetches; null in lists.</param>
public sealed record FeedAnswer(
    Guid Id, string Name, IReadOnlyList<Guid>? GardenIds, IReadOnlyList<string>? Techniques, FeedContent Content, IReadOnlyList<string> Reminders,
    [property: Description(FeedRequest.AboutGathered)] FeedGathering Gathered,
    [property: Description(FeedRequest.AboutSpan)] FeedSpan Span,
    [property: Description(FeedRequest.AboutAt)] string? At,
    string? Url, string? WebcalUrl, Instant CreatedAt, Instant? ContentChangedAt, Instant? LastFetchedAt,
    [property: Description("The kind of calendar app that fetched last. Neither its name nor its address is kept.")] CalendarAppKind? LastFetchedBy,
    [property: Description("What each kind of calendar app does with reminders, and how often it fetches; null in lists.")] IReadOnlyList<CalendarApp>? CalendarApps)
{
    public static FeedAnswer Of(Feed feed, string? url)
    {
        ArgumentNullException.ThrowIfNull(feed);
        var settings = feed.Settings;
        return new FeedAnswer(
            feed.Id, settings.Name, settings.GardenIds, settings.Techniques, settings.Content, [.. settings.Reminders.Select(reminder => reminder.Text)],
            settings.Gathered, settings.Span, settings.At is { } at ? ClockTime.Text(at) : null,
            url, url is null ? null : "webcal" + url[url.IndexOf("://", StringComparison.Ordinal)..],
            feed.CreatedAt, feed.BodyChangedAt, feed.LastFetchedAt,
            feed.LastFetchedBy is { } by && Ids.TryParse<CalendarAppKind>(by, out var kind) ? kind : null, CalendarApp.All);
    }
}
