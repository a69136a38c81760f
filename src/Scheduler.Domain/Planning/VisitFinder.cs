using NodaTime;
using Scheduler.Domain.Techniques;

namespace Scheduler.Domain.Planning;

/// <summary>
/// The visits that announced windows ask for within the planned days. Work that needs several looks is split: the window's free days are
/// dealt out to its visits in order, so that no two fall on one day. How they are dealt out does not hang on today, so
/// visits stay where they are as time passes.
/// </summary>
public sealed class VisitFinder
{
    private readonly Craft _craft;
    private readonly PlanningRules _rules;
    private readonly IReadOnlyList<PlanDay> _days;
    private readonly Func<LocalDate, int> _minutesOn;
    private readonly LearnedMinutes _minutes;

    /// <param name="days">Days to plan from today on, ascending, each date once.</param>
    /// <param name="minutesOn">Free minutes of any day, also of past ones.</param>
    public VisitFinder(Craft craft, IReadOnlyList<PlanDay> days, Func<LocalDate, int> minutesOn, LearnedMinutes minutes)
    {
        ArgumentNullException.ThrowIfNull(craft);
        (_craft, _rules, _days, _minutesOn, _minutes) = (craft, craft.Planning, days, minutesOn, minutes);
    }

    public IEnumerable<WorkVisit> Of(Guid windowId, WorkWindow window, TreeFacts tree, HoldDays holds)
    {
        ArgumentNullException.ThrowIfNull(window);
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentNullException.ThrowIfNull(holds);
        var (today, last) = (_days[0].Date, _days[^1].Date);
        if (window.State is not (WindowState.Forecast or WindowState.Open or WindowState.Held)
            || window.Opens.Likely is not { } opens || opens > last || window.Closes.Likely < today)
        {
            yield break;
        }
        // A window without a close in sight is asked for within the planned days.
        var closes = window.Closes.Likely is { } close && close >= opens ? close : LocalDate.Max(opens, last);
        var visits = Math.Max(1, window.Sessions?.Low ?? 1);
        for (var visit = 1; visit <= visits; visit++)
        {
            var (from, to) = Slice(opens, closes, visit, visits);
            if (to >= today && from <= last)
                yield return Visit(windowId, window, tree, holds, visit, visits, LocalDate.Max(from, today), to);
        }
    }

    private WorkVisit Visit(
        Guid windowId, WorkWindow window, TreeFacts tree, HoldDays holds, int visit, int visits, LocalDate from, LocalDate to)
    {
        var days = new List<int>();
        var held = new SortedDictionary<LocalDate, string>();
        for (var day = 0; day < _days.Count; day++)
        {
            var date = _days[day].Date;
            if (date < from || date > to || _days[day].Minutes <= 0)
                continue;
            if (holds.On(window, date) is { } hold)
                held[date] = hold;
            else
                days.Add(day);
        }
        var load = LoadOf(window.Key);
        var job = new PlanJob(
            IdOf(windowId, visit), window.Key.TreeId.ToString("N"), _minutes.Of(window, tree.Tree.Size), Worth(window, load, visit), days)
        {
            Kind = _rules.IsRootWork(window.Key) ? WorkKind.Roots : _rules.IsLeafWork(window.Key) ? WorkKind.Leaves : WorkKind.Other,
            IsHeavy = load >= Heavy
        };
        return new WorkVisit(windowId, window, visit, visits, from, LocalDate.Min(to, _days[^1].Date), job, held, to > _days[^1].Date);
    }

    public static string IdOf(Guid windowId, int visit) => FormattableString.Invariant($"{windowId:N}/{visit}");

    private const int Heavy = 3;

    private int LoadOf(WindowKey key)
    {
        var technique = _craft.Find(key.Technique);
        return (technique?.Modes.FirstOrDefault(mode => mode.Id == key.Mode)?.Load ?? technique?.Load)?.Whole ?? 0;
    }

    private double Worth(WorkWindow window, int load, int visit)
    {
        var worth = _rules.CareWork.Contains(window.Key.Technique) ? _rules.WorthCare.Value : _rules.WorthOf(load);
        worth *= Math.Pow(_rules.NextVisitPercent.Value / 100, visit - 1);
        return window.Closes.Likely <= _days[0].Date.PlusDays((int)_rules.ClosingDays.Value) ? worth * (1 + _rules.ClosingPercent.Value / 100) : worth;
    }

    // Free days of the whole window are shared out evenly; where there are fewer of them than visits, its calendar days are.
    private (LocalDate From, LocalDate To) Slice(LocalDate opens, LocalDate closes, int visit, int visits)
    {
        if (visits == 1)
            return (opens, closes);
        var free = new List<LocalDate>();
        for (var date = opens; date <= closes; date = date.PlusDays(1))
        {
            if (_minutesOn(date) > 0)
                free.Add(date);
        }
        if (free.Count >= visits)
        {
            var (first, next) = (free.Count * (visit - 1) / visits, free.Count * visit / visits);
            return (visit == 1 ? opens : free[first], visit == visits ? closes : free[next].PlusDays(-1));
        }
        var length = Period.DaysBetween(opens, closes) + 1;
        return (opens.PlusDays(length * (visit - 1) / visits), opens.PlusDays(Math.Max(length * (visit - 1) / visits, length * visit / visits - 1)));
    }
}
