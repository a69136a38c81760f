using System.Text;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using NodaTime;
using Scheduler.Service.Plans;
using Calendar = Ical.Net.Calendar;
using Duration = Ical.Net.DataTypes.Duration;
using Trigger = Ical.Net.DataTypes.Trigger;

namespace Scheduler.Service.Feeds;

/// <summary>
/// Turns events into the bytes of a published calendar (RFC 5545, RFC 7986). The same events give the same bytes,
/// on any day and any machine: every stamp comes with them.
/// </summary>
public static class CalendarWriter
{
    /// <summary>What calendars are asked to wait between two polls; weather is read anew about as often.</summary>
    private const string RefreshInterval = "PT6H";

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Windows and visits one by one, with the stamps of their own, as they are told where nothing was told before.</summary>
    public static byte[] Write(FeedLook look, IEnumerable<StoredWindow> windows, IEnumerable<DatedVisit>? visits = null)
    {
        ArgumentNullException.ThrowIfNull(look);
        ArgumentNullException.ThrowIfNull(windows);
        var drafts = windows.Select(window => EachEvents.Of(look, window)).Concat((visits ?? []).Select(visit => EachEvents.Of(look, visit)));
        return Write(look.Name, look.Host, drafts.Select(draft => new ToldEvent(draft.Event, draft.Sequence, draft.ChangedAt, null)));
    }

    /// <param name="title">Name of the calendar.</param>
    /// <param name="host">Right half of every UID.</param>
    public static byte[] Write(string title, string host, IEnumerable<ToldEvent> events)
    {
        ArgumentNullException.ThrowIfNull(title);
        ArgumentNullException.ThrowIfNull(events);
        var name = PlainText.Line(title);
        // No METHOD: with it DTSTAMP would be the time of writing and PUBLISH would ask for an ORGANIZER.
        var calendar = new Calendar { ProductId = "-//Scheduler//Scheduler 1//EN", Version = "2.0", Method = null };
        calendar.AddProperty("NAME", name);
        calendar.AddProperty("X-WR-CALNAME", name);
        var refresh = new CalendarProperty("REFRESH-INTERVAL", RefreshInterval);
        refresh.AddParameter("VALUE", "DURATION");
        calendar.AddProperty(refresh);
        var told = events.OrderBy(one => one.Event.Span.Start).ThenBy(one => one.Event.Id, StringComparer.Ordinal).ToList();
        foreach (var zone in ZoneRules.Of(told.Select(one => one.Event.Span)))
            calendar.AddTimeZone(zone);
        foreach (var one in told)
            calendar.Events.Add(Event(one, host));
        if (told.Count == 0)
            calendar.AddTimeZone(EmptyCalendarFiller());
        return Utf8.GetBytes(LineFolding.Refold(new CalendarSerializer().SerializeToString(calendar)!));
    }

    private static CalendarEvent Event(ToldEvent told, string host)
    {
        var (shown, stamp) = (told.Event, Utc(told.ChangedAt));
        var made = new CalendarEvent
        {
            Uid = $"{shown.Id}@{host}",
            Sequence = told.Sequence,
            DtStamp = stamp,
            LastModified = stamp,
            Start = Moment(shown.Span.Start, shown.Span.Zone),
            End = Moment(shown.Span.End, shown.Span.Zone),
            Status = shown.Status,
            Transparency = "TRANSPARENT",
            Summary = shown.Summary,
            Description = shown.Description,
            Location = shown.Location,
            Categories = [shown.Category]
        };
        foreach (var reminder in shown.Alarms)
            made.Alarms.Add(Alarm(shown.Id, host, Reminder.Parse(reminder)!, shown.Summary));
        return made;
    }

    private static Alarm Alarm(string id, string host, Reminder reminder, string summary)
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

    private static CalDateTime Moment(LocalDateTime time, string? zone) =>
        zone is null ? new CalDateTime(time.Date.ToDateOnly()) : new CalDateTime(time.ToDateTimeUnspecified(), zone);

    private static CalDateTime Utc(Instant instant) => new(instant.ToDateTimeUtc(), CalDateTime.UtcTzId);
}
