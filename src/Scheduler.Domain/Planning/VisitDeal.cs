using NodaTime;

namespace Scheduler.Domain.Planning;

/// <summary>
/// Which days each visit of one window may take. The window is shared out by the days that are usually free, so that neither today nor a
/// single day more or less moves a share. A visit that stands on a day keeps it while the window and that day allow it, whatever became of
/// its share; one without a day takes what its share has left, else the days between its neighbors, else any of the window.
/// </summary>
public sealed class VisitDeal
{
    private readonly LocalDate _opens;
    private readonly LocalDate _closes;
    private readonly List<LocalDate> _usual = [];

    /// <param name="visits">How many visits the window asks for, at least 1.</param>
    /// <param name="isUsual">Whether a day, also a past one, is free in the usual week.</param>
    public VisitDeal(LocalDate opens, LocalDate closes, int visits, Func<LocalDate, bool> isUsual)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(visits, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(closes, opens);
        ArgumentNullException.ThrowIfNull(isUsual);
        (_opens, _closes, Visits) = (opens, closes, visits);
        for (var date = opens; visits > 1 && date <= closes; date = date.PlusDays(1))
        {
            if (isUsual(date))
                _usual.Add(date);
        }
    }

    public int Visits { get; }

    /// <summary>First and last day of a visit's share. Where there are fewer usual days than visits, the calendar is shared out.</summary>
    public (LocalDate From, LocalDate To) Share(int visit)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(visit, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(visit, Visits);
        if (Visits == 1)
            return (_opens, _closes);
        if (_usual.Count >= Visits)
        {
            var (first, next) = (_usual.Count * (visit - 1) / Visits, _usual.Count * visit / Visits);
            return (visit == 1 ? _opens : _usual[first], visit == Visits ? _closes : _usual[next].PlusDays(-1));
        }
        var length = Period.DaysBetween(_opens, _closes) + 1;
        var from = length * (visit - 1) / Visits;
        return (_opens.PlusDays(from), _opens.PlusDays(Math.Max(from, length * visit / Visits - 1)));
    }

    /// <summary>The days on which a visit may be put, ascending.</summary>
    /// <param name="free">Days that take this work, ascending.</param>
    /// <param name="standing">Days of the window's visits in the earlier plan, by visit.</param>
    public IReadOnlyList<LocalDate> Days(int visit, IReadOnlyList<LocalDate> free, IReadOnlyDictionary<int, LocalDate> standing)
    {
        ArgumentNullException.ThrowIfNull(free);
        ArgumentNullException.ThrowIfNull(standing);
        var (from, to) = Share(visit);
        if (Visits == 1)
            return Within(free, from, to);
        var kept = standing.Where(place => place.Key <= Visits && place.Value >= _opens && place.Value <= _closes && free.Contains(place.Value))
            .ToDictionary();
        if (kept.TryGetValue(visit, out var own))
            return [.. Within(free, from, to).Append(own).Distinct().Order()];
        var taken = kept.Values.ToHashSet();
        List<LocalDate> left = [.. Within(free, _opens, _closes).Where(date => !taken.Contains(date))];
        var days = Within(left, from, to);
        if (days.Count == 0)
        {
            var after = kept.Where(place => place.Key < visit).Select(place => place.Value).DefaultIfEmpty(_opens.PlusDays(-1)).Max();
            var before = kept.Where(place => place.Key > visit).Select(place => place.Value).DefaultIfEmpty(_closes.PlusDays(1)).Min();
            days = Within(left, after, before);
        }
        return days.Count > 0 ? days : left;
    }

    private static List<LocalDate> Within(IEnumerable<LocalDate> days, LocalDate from, LocalDate to) => [.. days.Where(date => date >= from && date <= to)];
}
