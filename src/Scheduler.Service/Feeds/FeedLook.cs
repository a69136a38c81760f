using NodaTime;

namespace Scheduler.Service.Feeds;

/// <summary>What a feed's settings say about the look of its events.</summary>
/// <param name="Name">Name of the calendar.</param>
/// <param name="Host">Right half of every event's UID; changing it makes all events new ones.</param>
/// <param name="Reminders">One alarm each; none means no alarm.</param>
/// <param name="ChangedAt">When the settings last changed how an event looks.</param>
public sealed record FeedLook(string Name, string Host, IReadOnlyList<Reminder> Reminders, Instant ChangedAt)
{
    /// <summary>Length of an event that begins at a time of day and has no length of its own.</summary>
    private const int UsualMinutes = 30;

    public FeedSpan Span { get; init; } = FeedSpan.Window;

    /// <summary>Local time at which events begin; null: events of whole days.</summary>
    public LocalTime? At { get; init; }

    /// <summary>IANA id of each garden's time zone, as far as known. An event of a garden without one lasts whole days.</summary>
    public IReadOnlyDictionary<Guid, string> Zones { get; init; } = new Dictionary<Guid, string>();

    internal IReadOnlyList<string> Alarms => [.. Reminders.Select(reminder => reminder.Text)];

    /// <summary>The span of a window's event.</summary>
    internal EventSpan SpanOf(Guid gardenId, LocalDate opens, LocalDate lastDay) =>
        Spanned(gardenId, opens, Span is FeedSpan.Opening ? opens : lastDay, UsualMinutes);

    /// <summary>The span of a visit's event.</summary>
    internal EventSpan SpanOf(Guid gardenId, LocalDate day, int minutes) => Spanned(gardenId, day, day, minutes);

    private EventSpan Spanned(Guid gardenId, LocalDate first, LocalDate last, int minutes)
    {
        if (At is not { } at || !Zones.TryGetValue(gardenId, out var id) || DateTimeZoneProviders.Tzdb.GetZoneOrNull(id) is not { } zone)
            return new EventSpan(first.AtMidnight(), last.PlusDays(1).AtMidnight(), null);
        var start = Existing(first + at, zone);
        // Counted on the clock on the wall, so that the end stays behind the beginning where an hour is lived twice.
        var end = Existing((last == first ? start : last + at).PlusMinutes(Math.Max(1, minutes)), zone);
        return new EventSpan(start, end, id);
    }

    // A time that the change to summer time leaves out comes as much later (RFC 5545 section 3.3.5); written so, no reader has to know.
    private static LocalDateTime Existing(LocalDateTime time, DateTimeZone zone) => time.InZoneLeniently(zone).LocalDateTime;
}
