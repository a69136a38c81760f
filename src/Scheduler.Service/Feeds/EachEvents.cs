using Ical.Net;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Feeds;

/// <summary>One event a window and one a planned visit. Their identity hangs on window and visit, never on the day.</summary>
internal static class EachEvents
{
    public static EventDraft Of(FeedLook look, StoredWindow stored)
    {
        var window = stored.Body.Window;
        var opens = window.Opens.Likely ?? throw new ArgumentException($"Window {stored.Id} has no date to show.", nameof(stored));
        var made = new FeedEvent(
            $"{stored.Id:D}", EventKind.Window, stored.GardenId, look.SpanOf(stored.GardenId, opens, FeedSelection.LastDay(window, opens)), Status(stored.State),
            PlainText.Line($"{window.Title}: {stored.Body.TreeName}"), EventText.Summary(stored), EventText.Description(stored), PlainText.Line(stored.Body.GardenName),
            stored.Key.Technique, IsPending(stored.State) ? look.Alarms : [], [$"{stored.Id:D}"]);
        return new EventDraft(made, stored.Sequence, Instant.Max(stored.ChangedAt, look.ChangedAt));
    }

    public static EventDraft Of(FeedLook look, DatedVisit dated)
    {
        var (window, visit) = (dated.Window, dated.Visit);
        var summary = PlainText.Line($"{window.Body.Window.Title}: {window.Body.TreeName} ({visit.Minutes} min)");
        var made = new FeedEvent(
            $"{window.Id:D}-visit-{visit.Visit}", EventKind.Visit, window.GardenId, look.SpanOf(window.GardenId, dated.Date, visit.Minutes), Status(window.State),
            summary, summary, EventText.Description(dated), PlainText.Line(window.Body.GardenName), window.Key.Technique, look.Alarms, [$"{window.Id:D}-visit-{visit.Visit}"]);
        // The text is the window's, so its changes are changes of the visit.
        return new EventDraft(made, visit.Sequence, Instant.Max(Instant.Max(visit.ChangedAt, window.ChangedAt), look.ChangedAt));
    }

    public static bool IsPending(WindowState state) => state is WindowState.Forecast or WindowState.Open or WindowState.Held;

    public static string Status(WindowState state) => state switch
    {
        WindowState.Forecast => EventStatus.Tentative,
        WindowState.Withdrawn => EventStatus.Cancelled,
        _ => EventStatus.Confirmed
    };
}
