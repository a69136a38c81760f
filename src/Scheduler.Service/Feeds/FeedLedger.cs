using Ical.Net;
using NodaTime;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Feeds;

/// <summary>What a rebuild makes of a feed's events.</summary>
/// <param name="Shown">What the feed tells now.</param>
/// <param name="Changed">What must be kept anew.</param>
/// <param name="Forgotten">Ids of what need be kept no longer.</param>
internal sealed record LedgerTurn(IReadOnlyList<ToldEvent> Shown, IReadOnlyList<ToldEvent> Changed, IReadOnlyList<string> Forgotten);

/// <summary>
/// Compares what a feed has told with what there is to tell. An event whose text, dates or status changed gets the next sequence number
/// and new stamps, one whose alarms alone changed only new stamps, and any other stays as it is to the last byte. What is no longer there
/// to tell stays as cancelled for thirty days, unless it has been over for as long. Pure.
/// </summary>
internal static class FeedLedger
{
    /// <summary>How long a cancelled event stays, so that calendars that poll seldom still learn of it.</summary>
    public static readonly Duration KeptAfterCancelling = Duration.FromDays(30);

    /// <summary>How long an event that left is remembered: longer than it may take to come back, when it must go on counting.</summary>
    private static readonly Duration Remembered = Duration.FromDays(400);

    /// <param name="gone">What to tell of an event that is not among the drafts.</param>
    public static LedgerTurn Turn(
        IReadOnlyList<EventDraft> drafts, IReadOnlyDictionary<string, ToldEvent> told, Func<FeedEvent, FeedEvent> gone, Instant now)
    {
        var shown = new List<ToldEvent>();
        var changed = new List<ToldEvent>();
        var forgotten = new List<string>();
        var ids = drafts.Select(draft => draft.Event.Id).ToHashSet(StringComparer.Ordinal);
        foreach (var draft in drafts)
            Tell(told.GetValueOrDefault(draft.Event.Id), draft);
        foreach (var was in told.Values.Where(was => !ids.Contains(was.Event.Id)).OrderBy(was => was.Event.Id, StringComparer.Ordinal))
        {
            var isLeaving = was.CancelledAt is { } at ? now >= at + KeptAfterCancelling : was.Event.Span.LastDay < now.InUtc().Date.PlusDays(-FeedSelection.PastDays);
            if (isLeaving && was.ChangedAt < now - Remembered && was.Event.Span.LastDay < (now - Remembered).InUtc().Date)
                forgotten.Add(was.Event.Id);
            else if (was.CancelledAt is not null && !isLeaving)
                shown.Add(was);
            else if (!isLeaving)
                Tell(was, new EventDraft(gone(was.Event), was.Sequence, was.ChangedAt));
        }
        return new LedgerTurn(shown, changed, forgotten);

        void Tell(ToldEvent? was, EventDraft draft)
        {
            var tells = Told(was, draft, now);
            shown.Add(tells);
            if (tells != was)
                changed.Add(tells);
        }
    }

    private static ToldEvent Told(ToldEvent? was, EventDraft draft, Instant now)
    {
        var isCancelled = draft.Event.Status == EventStatus.Cancelled;
        if (was is null)
            return new ToldEvent(draft.Event, draft.Sequence, draft.ChangedAt, isCancelled ? now : null);
        var reads = was.Event.ReadsLike(draft.Event);
        if (reads && was.Event.RingsLike(draft.Event))
            return was.Event.Members.SequenceEqual(draft.Event.Members, StringComparer.Ordinal) ? was : was with { Event = draft.Event };
        return new ToldEvent(
            draft.Event, reads ? was.Sequence : Math.Max(was.Sequence + 1, draft.Sequence), Stamp.After(was.ChangedAt, now),
            isCancelled ? was.CancelledAt ?? now : null);
    }
}
