using NodaTime;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>Runs of days on which something triggers. A run is known by its first day.</summary>
internal static class Spells
{
    public static IEnumerable<(LocalDate First, LocalDate Last)> Of(LocalDate from, LocalDate to, Func<LocalDate, bool> triggers)
    {
        LocalDate? first = null;
        for (var day = from; day <= to; day = day.PlusDays(1))
        {
            if (triggers(day))
                first ??= day;
            else if (first is { } begun)
            {
                yield return (begun, day.PlusDays(-1));
                first = null;
            }
        }
        if (first is { } last)
            yield return (last, to);
    }

    public static WindowState State(LocalDate first, LocalDate last, LocalDate today, bool isDone) =>
        isDone ? WindowState.Done : last < today ? WindowState.Missed : first <= today ? WindowState.Open : WindowState.Forecast;
}
