using NodaTime;

namespace Scheduler.Service.Feeds;

/// <summary>What an owner decides about a feed.</summary>
/// <param name="GardenIds">Gardens to show; null: all of the owner's, also later ones.</param>
/// <param name="Techniques">Technique ids to show; null: all.</param>
/// <param name="Reminders">Alarms before each event; none: no alarm.</param>
public sealed record FeedSettings(
    string Name, IReadOnlyList<Guid>? GardenIds, IReadOnlyList<string>? Techniques, FeedContent Content, IReadOnlyList<Reminder> Reminders)
{
    public FeedGathering Gathered { get; init; } = FeedGathering.Each;

    public FeedSpan Span { get; init; } = FeedSpan.Window;

    /// <summary>Local time at which events begin; null: events of whole days.</summary>
    public LocalTime? At { get; init; }

    public bool Covers(Guid gardenId) => GardenIds?.Contains(gardenId) ?? true;

    public bool ShowsWindows => Content is FeedContent.Windows or FeedContent.Both;

    public bool ShowsPlan => Content is FeedContent.Plan or FeedContent.Both;

    public bool Shows(string technique) => Techniques?.Contains(technique, StringComparer.Ordinal) ?? true;

    /// <summary>Whether events of this kind belong to the feed.</summary>
    internal bool Shows(EventKind kind) => kind switch
    {
        EventKind.Window => ShowsWindows && Gathered is FeedGathering.Each,
        EventKind.Windows => ShowsWindows && Gathered is FeedGathering.Technique,
        EventKind.Visit => ShowsPlan && Gathered is FeedGathering.Each,
        EventKind.Visits => ShowsPlan && Gathered is FeedGathering.Technique,
        _ => throw new InvalidOperationException($"No feed shows events of the kind {kind}.")
    };
}

/// <summary>What the events of a feed are: spans in which work is right, dated work items, or both.</summary>
public enum FeedContent { Windows, Plan, Both }

/// <summary>How events are gathered: one a tree and technique, or one for all trees of a garden that are due for the same technique at the same time.</summary>
public enum FeedGathering { Each, Technique }

/// <summary>How long the event of a window lasts: from its opening to its close, or the opening day alone.</summary>
public enum FeedSpan { Window, Opening }
