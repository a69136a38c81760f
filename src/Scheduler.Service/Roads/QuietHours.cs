using NodaTime;

namespace Scheduler.Service.Roads;

/// <summary>
/// Hours in which only what is urgent is sent. From the first time to the second, over midnight where the second is the earlier one.
/// </summary>
public sealed record QuietHours
{
    public QuietHours(LocalTime from, LocalTime to)
    {
        if (from == to)
            throw new ArgumentException("Quiet hours need a beginning and an end that differ.", nameof(to));
        (From, To) = (from, to);
    }

    public LocalTime From { get; }

    public LocalTime To { get; }

    /// <summary>
    /// When the quiet that holds at a moment ends; null when there is none. Each night is a span of instants, so a change of the clock
    /// makes it an hour longer or shorter and never ends it twice. A time that a change skips counts as the moment after it.
    /// </summary>
    public Instant? EndAt(Instant now, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        var today = now.InZone(zone).Date;
        foreach (var date in new[] { today.PlusDays(-1), today })
        {
            var start = zone.AtLeniently(date + From).ToInstant();
            var end = zone.AtLeniently((To < From ? date.PlusDays(1) : date) + To).ToInstant();
            if (start <= now && now < end)
                return end;
        }
        return null;
    }
}
