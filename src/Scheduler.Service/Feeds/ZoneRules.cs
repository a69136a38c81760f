using System.Globalization;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using NodaTime;
using NodaTime.TimeZones;

namespace Scheduler.Service.Feeds;

/// <summary>
/// Time zones as a calendar carries them (RFC 5545 section 3.6.5), for the years of its events. Two changes of the clocks that follow one
/// rule through the coming cycle of the calendar are written as that rule, any others one by one.
/// </summary>
internal static class ZoneRules
{
    /// <summary>After so many years dates fall on the same days of the week again.</summary>
    private const int CycleYears = 28;

    private static readonly string[] Days = ["", "MO", "TU", "WE", "TH", "FR", "SA", "SU"];

    /// <summary>Each zone that is named, once.</summary>
    public static IReadOnlyList<VTimeZone> Of(IEnumerable<EventSpan> spans) =>
        [.. spans.Where(span => span.Zone is not null).GroupBy(span => span.Zone!, StringComparer.Ordinal).OrderBy(zone => zone.Key, StringComparer.Ordinal)
            .Select(zone => Of(zone.Key, zone.Min(span => span.Start.Year) - 1, zone.Max(span => span.End.Year) + 1))];

    private static VTimeZone Of(string id, int firstYear, int lastYear)
    {
        var made = new VTimeZone(id);
        var zone = DateTimeZoneProviders.Tzdb[id];
        var (from, to) = (Instant.FromUtc(firstYear, 1, 1, 0, 0), Instant.FromUtc(lastYear + 1, 1, 1, 0, 0));
        var changes = Changes(zone, from, Instant.FromUtc(firstYear + CycleYears, 1, 1, 0, 0));
        var rules = changes.GroupBy(change => change.Shape).Select(group => Rule([.. group], firstYear)).ToList();
        if (changes.Count > 0 && rules.All(rule => rule is not null))
        {
            foreach (var rule in rules)
                made.AddChild(Observance(rule!.First, rule.Text));
            return made;
        }
        // The one in force when the first year begins leads the way.
        var first = zone.GetZoneInterval(from);
        made.AddChild(first.HasStart && Before(zone, first) is { } before
            ? Observance(new Change(first, before), null)
            : Observance(new Change(first, null), null));
        foreach (var change in Changes(zone, first.HasEnd ? first.End : to, to))
            made.AddChild(Observance(change, null));
        return made;
    }

    private static List<Change> Changes(DateTimeZone zone, Instant from, Instant to) =>
        from >= to ? [] : [.. zone.GetZoneIntervals(from, to).Where(interval => interval.HasStart && interval.Start >= from).Select(interval => new Change(interval, Before(zone, interval)))];

    private static ZoneInterval? Before(DateTimeZone zone, ZoneInterval interval) =>
        interval.HasStart ? zone.GetZoneInterval(interval.Start - NodaTime.Duration.Epsilon) : null;

    // Once a year, each year, on the same weekday of the month counted from its beginning or its end.
    private static YearlyRule? Rule(List<Change> changes, int firstYear)
    {
        var dates = changes.Select(change => change.Local.Date).ToList();
        if (dates.Count != CycleYears || dates.Where((date, year) => date.Year != firstYear + year).Any())
            return null;
        var places = dates.Select(date => (date.Day - 1) / 7 + 1).Distinct().ToList();
        int? place = dates.All(date => date.Day + 7 > date.Calendar.GetDaysInMonth(date.Year, date.Month)) ? -1 : places.Count == 1 ? places[0] : null;
        return place is null ? null : new YearlyRule(changes[0], string.Create(
            CultureInfo.InvariantCulture, $"FREQ=YEARLY;BYMONTH={dates[0].Month};BYDAY={place}{Days[(int)dates[0].DayOfWeek]}"));
    }

    private static VTimeZoneInfo Observance(Change change, string? rule)
    {
        var made = new VTimeZoneInfo(change.Interval.Savings > Offset.Zero ? "DAYLIGHT" : "STANDARD")
        {
            Start = new CalDateTime(change.Local.ToDateTimeUnspecified()),
            OffsetFrom = new UtcOffset(change.From.ToTimeSpan()),
            OffsetTo = new UtcOffset(change.Interval.WallOffset.ToTimeSpan()),
            TimeZoneName = change.Interval.Name
        };
        if (rule is not null)
            made.RecurrenceRule = new RecurrenceRule(rule);
        return made;
    }

    private sealed record YearlyRule(Change First, string Text);

    /// <summary>A change of the clocks, told by the clocks that it ends.</summary>
    private sealed record Change(ZoneInterval Interval, ZoneInterval? Before)
    {
        public Offset From => Before?.WallOffset ?? Interval.WallOffset;

        public LocalDateTime Local => Before is null ? new LocalDateTime(1970, 1, 1, 0, 0) : Interval.Start.WithOffset(From).LocalDateTime;

        public object Shape => (From, Interval.WallOffset, Interval.Savings, Interval.Name, Local.Month, Local.DayOfWeek, Local.TimeOfDay);
    }
}
