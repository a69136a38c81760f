using System.Text;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Plans;
using Calendar = Ical.Net.Calendar;
using Duration = Ical.Net.DataTypes.Duration;
using Trigger = Ical.Net.DataTypes.Trigger;

namespace Scheduler.Service.Feeds;

/// <summary>What a feed's settings say about the look of its events.</summary>
/// <param name="Name">Name of the calendar.</param>
/// <param name="Host">Right half of every event's UID; changing it makes all events new ones.</param>
/// <param name="Reminders">One alarm each; none means no alarm.</param>
/// <param name="ChangedAt">When the settings last changed how an event looks.</param>
public sealed record FeedLook(string Name, string Host, IReadOnlyList<Reminder> Reminders, Instant ChangedAt);

/// <summary>
/// Turns windows into the bytes of a published calendar (RFC 5545, RFC 7986). The same windows give the same bytes,
/// on any day and any machine: every stamp comes from the rows.
/// </summary>
public static class CalendarWriter
{
    /// <summary>What calendars are asked to wait between two polls; weather is read anew about as often.</summary>
    private const string RefreshInterval = "PT6H";

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    public static byte[] Write(FeedLook look, IEnumerable<StoredWindow> windows, IEnumerable<DatedVisit>? visits = null)
    {
        ArgumentNullException.ThrowIfNull(look);
        ArgumentNullException.ThrowIfNull(windows);
        var name = PlainText.Line(look.Name);
        // No METHOD: with it DTSTAMP would be the time of writing and PUBLISH would ask for an ORGANIZER.
        var calendar = new Calendar { ProductId = "-//Scheduler//Scheduler 1//EN", Version = "2.0", Method = null };
        calendar.AddProperty("NAME", name);
        calendar.AddProperty("X-WR-CALNAME", name);
        var refresh = new CalendarProperty("REFRESH-INTERVAL", RefreshInterval);
        refresh.AddParameter("VALUE", "DURATION");
        calendar.AddProperty(refresh);
        foreach (var window in windows.OrderBy(window => window.Body.Window.Opens.Likely).ThenBy(window => window.Id))
            calendar.Events.Add(Event(look, window));
        foreach (var visit in (visits ?? []).OrderBy(visit => visit.Date).ThenBy(visit => visit.Visit.Order).ThenBy(visit => visit.Visit.Id, StringComparer.Ordinal))
            calendar.Events.Add(VisitEvents.Event(look, visit));
        if (calendar.Events.Count == 0)
            calendar.AddTimeZone(EmptyCalendarFiller());
        return Utf8.GetBytes(LineFolding.Refold(new CalendarSerializer().SerializeToString(calendar)!));
    }

    private static CalendarEvent Event(FeedLook look, StoredWindow stored)
    {
        var window = stored.Body.Window;
        var opens = window.Opens.Likely ?? throw new ArgumentException($"Window {stored.Id} has no date to show.", nameof(stored));
        var stamp = Utc(Instant.Max(stored.ChangedAt, look.ChangedAt));
        var summary = EventText.Summary(stored);
        var made = new CalendarEvent
        {
            Uid = $"{stored.Id:D}@{look.Host}",
            Sequence = stored.Sequence,
            DtStamp = stamp,
            LastModified = stamp,
            Start = Date(opens),
            // A calendar's end is the first day after.
            End = Date(FeedSelection.LastDay(window, opens).PlusDays(1)),
            Status = Status(stored.State),
            Transparency = "TRANSPARENT",
            Summary = summary,
            Description = EventText.Description(stored),
            Location = PlainText.Line(stored.Body.GardenName),
            Categories = [stored.Key.Technique]
        };
        if (stored.State is WindowState.Forecast or WindowState.Open or WindowState.Held)
        {
            foreach (var reminder in look.Reminders)
                made.Alarms.Add(Alarm($"{stored.Id:D}", look.Host, reminder, summary));
        }
        return made;
    }

    internal static Alarm Alarm(string id, string host, Reminder reminder, string summary)
    {
        var trigger = new Trigger(new Duration(
            days: Back(reminder.Days), hours: Back(reminder.Minutes / 60), minutes: Back(reminder.Minutes % 60)));
        var alarm = new Alarm { Action = AlarmAction.Display, Description = summary, Trigger = trigger };
        // The same alarm stays the same alarm, or phones would ring again after each refresh (RFC 9074 section 4).
        alarm.AddProperty("UID", $"{id}-{reminder.Text}@{host}");
        return alarm;

        static int? Back(int amount) => amount == 0 ? null : -amount;
    }

    // A calendar must hold a component (RFC 5545 section 3.6); a time zone is the one that shows nothing.
    private static VTimeZone EmptyCalendarFiller()
    {
        var zone = new VTimeZone("Etc/UTC");
        var standard = new VTimeZoneInfo("STANDARD")
        {
            Start = new CalDateTime(1970, 1, 1, 0, 0, 0),
            OffsetFrom = new UtcOffset("+0000"),
            OffsetTo = new UtcOffset("+0000")
        };
        zone.AddChild(standard);
        return zone;
    }

    internal static string Status(WindowState state) => state switch
    {
        WindowState.Forecast => EventStatus.Tentative,
        WindowState.Withdrawn => EventStatus.Cancelled,
        _ => EventStatus.Confirmed
    };

    internal static CalDateTime Date(LocalDate date) => new(date.ToDateOnly());

    internal static CalDateTime Utc(Instant instant) => new(instant.ToDateTimeUtc(), CalDateTime.UtcTzId);
}
