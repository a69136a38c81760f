using NodaTime;

namespace Scheduler.Service.Roads;

/// <summary>When a mail gathers what is new: each day at an hour, or once a week.</summary>
/// <param name="Day">The weekday; null: every day.</param>
public sealed record DigestTimes(LocalTime At, IsoDayOfWeek? Day)
{
    public bool IsWeekly => Day is not null;

    /// <summary>The day whose digest is the last one due at a moment, as the clocks of the zone show it.</summary>
    public LocalDate LastDue(Instant now, DateTimeZone zone)
    {
        var today = now.InZone(zone).Date;
        var date = Day is { } day && today.DayOfWeek != day ? today.Previous(day) : today;
        return Moment(date, zone) <= now ? date : Before(date);
    }

    public Instant NextAfter(Instant now, DateTimeZone zone)
    {
        var last = LastDue(now, zone);
        return Moment(Day is { } day ? last.Next(day) : last.PlusDays(1), zone);
    }

    private LocalDate Before(LocalDate date) => Day is { } day ? date.Previous(day) : date.PlusDays(-1);

    private Instant Moment(LocalDate date, DateTimeZone zone) => zone.AtLeniently(date + At).ToInstant();
}
