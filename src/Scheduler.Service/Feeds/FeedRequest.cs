using System.ComponentModel;

namespace Scheduler.Service.Feeds;

/// <summary>What an owner asks of a feed, as the API document shows it; a change gives only what changes.</summary>
public sealed record FeedRequest(
    [property: Description("What the calendar calls it. A new feed needs one.")] string? Name,
    [property: Description("Gardens to show; null: all, also later ones.")] IReadOnlyList<Guid>? GardenIds,
    [property: Description("Technique ids to show; null: all.")] IReadOnlyList<string>? Techniques,
    [property: Description("Windows in which work is right, work planned on free days, or both. Usual: windows.")] FeedContent? Content,
    [property: Description("ISO 8601 durations before the start of each event, at most 5. An event of whole days starts at midnight. Usual: PT15H, or PT0S where the new feed has a time.")] IReadOnlyList<string>? Reminders,
    [property: Description(FeedRequest.AboutGathered)] FeedGathering? Gathered,
    [property: Description(FeedRequest.AboutSpan)] FeedSpan? Span,
    [property: Description(FeedRequest.AboutAt)] string? At)
{
    internal const string AboutGathered =
        "each: one event a tree and technique. technique: one event for all trees of a garden whose windows of the same technique overlap, or that the plan gives the same technique on one day. Usual: each.";

    internal const string AboutSpan = "window: the event of a window lasts from its opening to its close. opening: the opening day alone. Usual: window.";

    internal const string AboutAt =
        "Local time of the garden at which events begin, as HH:mm such as 07:30; reminders count from it. null: events of whole days, also for a garden whose time zone is not known yet. Usual: null.";
}
