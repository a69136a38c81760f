using NodaTime;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Feeds;

/// <summary>What stands behind an event: a window or a planned visit, alone or gathered.</summary>
public enum EventKind { Window, Visit, Windows, Visits }

/// <summary>When an event begins and ends. Without a zone it is one of whole days, from midnight to midnight; its end is the first moment after.</summary>
public sealed record EventSpan(LocalDateTime Start, LocalDateTime End, string? Zone)
{
    public LocalDate LastDay => End.PlusTicks(-1).Date;
}

/// <summary>Everything a calendar shows of an event, without its stamps.</summary>
/// <param name="Id">Left half of its UID.</param>
/// <param name="Heading">Its summary without a word on its state.</param>
/// <param name="Category">Id of the technique.</param>
/// <param name="Alarms">Reminders as their owner wrote them.</param>
/// <param name="Members">Ids of the windows or visits that it stands for; no calendar sees them.</param>
public sealed record FeedEvent(
    string Id, EventKind Kind, Guid GardenId, EventSpan Span, string Status, string Heading, string Summary, string Description, string Location,
    string Category, IReadOnlyList<string> Alarms, IReadOnlyList<string> Members)
{
    /// <summary>A calendar would show the same, but for alarms.</summary>
    public bool ReadsLike(FeedEvent other) => (this with { Alarms = [], Members = [] }).Text == ((other ?? throw new ArgumentNullException(nameof(other))) with { Alarms = [], Members = [] }).Text;

    /// <summary>A calendar would ring at the same times.</summary>
    public bool RingsLike(FeedEvent other) => Alarms.SequenceEqual((other ?? throw new ArgumentNullException(nameof(other))).Alarms, StringComparer.Ordinal);

    internal string Text => Json.Write(this);
}

/// <summary>An event as it was found today, with the stamps it takes if its feed has never told of it.</summary>
public sealed record EventDraft(FeedEvent Event, int Sequence, Instant ChangedAt);

/// <summary>An event as its feed has told of it.</summary>
/// <param name="CancelledAt">Since when it is called off; null: it is not.</param>
public sealed record ToldEvent(FeedEvent Event, int Sequence, Instant ChangedAt, Instant? CancelledAt);
