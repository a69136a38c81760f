using Ical.Net;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Feeds;

/// <summary>What a feed tells of an event that is no longer among those it has to tell: that it is off, and why.</summary>
internal sealed class GoneEvents(FeedSettings settings, IReadOnlyList<StoredWindow> windows, IEnumerable<EventDraft> drafts, LocalDate today)
{
    /// <summary>Length of the id of a window, with which the id of each member begins.</summary>
    private const int IdLength = 36;

    private readonly Dictionary<Guid, StoredWindow> _windows = windows.ToDictionary(window => window.Id);
    private readonly HashSet<string> _told = [.. drafts.SelectMany(draft => draft.Event.Members)];

    public FeedEvent Of(FeedEvent gone)
    {
        var known = gone.Members.Select(member => _windows.GetValueOrDefault(Guid.Parse(member.AsSpan(0, IdLength)))).OfType<StoredWindow>().ToList();
        var isShown = settings.Shows(gone.Kind) && settings.Covers(gone.GardenId) && settings.Shows(gone.Category);
        if (isShown && known.Count > 0 && known.TrueForAll(window => window.State is WindowState.Done) && gone.Span.Start.Date <= today)
            return gone with { Status = EventStatus.Confirmed, Summary = "Done: " + gone.Heading, Description = "Done. Nothing is left to do here.", Alarms = [] };
        return gone with
        {
            Status = EventStatus.Cancelled,
            Summary = "Called off: " + gone.Heading,
            Description = PlainText.Lines("Called off. " + (isShown ? Why(gone, known) : "The settings of this feed were changed, and it no longer shows this event.")),
            Alarms = []
        };
    }

    private string Why(FeedEvent gone, List<StoredWindow> known)
    {
        if (known.Count == 0)
            return "The tree or its garden is no longer there.";
        if (gone.Kind is EventKind.Windows or EventKind.Visits && gone.Members.Any(_told.Contains))
            return "Its trees now stand in another event of the same work.";
        if (known.TrueForAll(window => window.State is WindowState.Withdrawn))
            return string.Join(' ', known.SelectMany(window => window.Body.Window.Reasons).Select(reason => reason.Text).Distinct(StringComparer.Ordinal));
        if (known.TrueForAll(window => window.State is WindowState.Done))
            return "The work is done already.";
        if (known.TrueForAll(window => window.State is WindowState.Missed))
            return "Its window has closed without the work. Do not catch up on it now.";
        return gone.Kind is EventKind.Visit or EventKind.Visits ? "The plan has no place for this visit any more." : "It is no longer expected this season.";
    }
}
