using Ical.Net.CalendarComponents;
using NodaTime;

namespace Scheduler.Service.Feeds;

/// <summary>Turns planned visits into events of one day each. Their identity hangs on window and visit, never on the day.</summary>
internal static class VisitEvents
{
    public static CalendarEvent Event(FeedLook look, DatedVisit dated)
    {
        var (window, visit) = (dated.Window, dated.Visit);
        var id = $"{window.Id:D}-visit-{visit.Visit}";
        // The text is the window's, so its changes are changes of the visit.
        var stamp = CalendarWriter.Utc(Instant.Max(Instant.Max(visit.ChangedAt, window.ChangedAt), look.ChangedAt));
        var summary = PlainText.Line($"{window.Body.Window.Title}: {window.Body.TreeName} ({visit.Minutes} min)");
        var made = new CalendarEvent
        {
            Uid = $"{id}@{look.Host}",
            Sequence = visit.Sequence,
            DtStamp = stamp,
            LastModified = stamp,
            Start = CalendarWriter.Date(dated.Date),
            End = CalendarWriter.Date(dated.Date.PlusDays(1)),
            Status = CalendarWriter.Status(window.State),
            Transparency = "TRANSPARENT",
            Summary = summary,
            Description = EventText.Description(dated),
            Location = PlainText.Line(window.Body.GardenName),
            Categories = [window.Key.Technique]
        };
        foreach (var reminder in look.Reminders)
            made.Alarms.Add(CalendarWriter.Alarm(id, look.Host, reminder, summary));
        return made;
    }
}
