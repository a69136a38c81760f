using System.Text.Json.Serialization;
using NodaTime;

namespace Scheduler.Service.Gardens;

/// <summary>Days that differ from the usual week.</summary>
/// <param name="From">First such day.</param>
/// <param name="To">Last such day; null: only the one.</param>
/// <param name="Minutes">0: away; else free for so long, whatever the weekday.</param>
/// <param name="People">How many can lend a hand; null: as many as on that weekday.</param>
public sealed record DayException(
    LocalDate From, LocalDate? To, int Minutes, [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] int? People = null);

/// <summary>How long the owner has for trees on any day: the usual week, and the exceptions from it, of which the last that fits counts.</summary>
public sealed record FreeTime(IReadOnlyList<WorkDay> WorkDays, IReadOnlyList<DayException> Exceptions)
{
    /// <summary>Nothing was said about free days at all.</summary>
    public bool IsUnknown => WorkDays.Count == 0 && !Exceptions.Any(exception => exception.Minutes > 0);

    public int MinutesOn(LocalDate date) => ExceptionOn(date)?.Minutes ?? UsualOn(date)?.Minutes ?? 0;

    /// <summary>How many can lend a hand; null: nobody said.</summary>
    public int? PeopleOn(LocalDate date) => ExceptionOn(date)?.People ?? UsualOn(date)?.People;

    /// <summary>Free in the usual week; where there is none, on the days that the exceptions give.</summary>
    public bool IsUsual(LocalDate date) => WorkDays.Count > 0 ? UsualOn(date) is not null : MinutesOn(date) > 0;

    private DayException? ExceptionOn(LocalDate date)
    {
        for (var last = Exceptions.Count - 1; last >= 0; last--)
        {
            if (date >= Exceptions[last].From && date <= (Exceptions[last].To ?? Exceptions[last].From))
                return Exceptions[last];
        }
        return null;
    }

    private WorkDay? UsualOn(LocalDate date)
    {
        foreach (var day in WorkDays)
        {
            if (day.Day == date.DayOfWeek)
                return day;
        }
        return null;
    }
}
