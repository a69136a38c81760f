using NodaTime;
using Scheduler.Domain.Techniques;

namespace Scheduler.Domain.Planning;

/// <summary>
/// The visits that announced windows ask for within the planned days. Work that needs several sessions is split into as many visits, dealt
/// out as <see cref="VisitDeal"/> says, no two on one day. Logged sessions are taken off from the front.
/// </summary>
public sealed class VisitFinder
{
    private readonly Craft _craft;
    private readonly PlanningRules _rules;
    private readonly IReadOnlyList<PlanDay> _days;
    private readonly Func<LocalDate, bool> _isUsual;
    private readonly LearnedMinutes _minutes;
    private readonly IReadOnlyDictionary<string, LocalDate> _before;

    /// <param name="days">Days to plan from today on, ascending, each date once.</param>
    /// <param name="isUsual">Whether any day, also a past one, is free in the usual week.</param>
    /// <param name="before">Days of an earlier plan by visit.</param>
    public VisitFinder(
        Craft craft, IReadOnlyList<PlanDay> days, Func<LocalDate, bool> isUsual, LearnedMinutes minutes, IReadOnlyDictionary<string, LocalDate> before)
    {
        ArgumentNullException.ThrowIfNull(craft);
        (_craft, _rules, _days, _isUsual, _minutes, _before) = (craft, craft.Planning, days, isUsual, minutes, before);
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
        var done = window.SessionsDone ?? 0;
        // Not over, so at least one visit is left.
        var deal = new VisitDeal(opens, closes, Math.Max(done + 1, window.Sessions?.Low ?? 1), _isUsual);
        var open = Open(window, holds, LocalDate.Max(opens, today), closes);
        var standing = Standing(windowId, deal.Visits);
        for (var visit = done + 1; visit <= deal.Visits; visit++)
        {
            var (from, to) = deal.Share(visit);
            if (to >= today && from <= last || standing.ContainsKey(visit))
                yield return Visit(windowId, window, tree, visit, deal, open, standing, LocalDate.Max(from, today), to);
        }
    }

    private WorkVisit Visit(
        Guid windowId, WorkWindow window, TreeFacts tree, int visit, VisitDeal deal, OpenDays open, IReadOnlyDictionary<int, LocalDate> standing,
        LocalDate from, LocalDate to)
    {
        var days = deal.Days(visit, open.Free, standing).Select(date => Period.DaysBetween(_days[0].Date, date)).ToList();
        var load = LoadOf(window.Key);
        var (minutes, sessions) = _minutes.Of(window, tree.Tree.Size);
        var job = new PlanJob(
            IdOf(windowId, visit), window.Key.TreeId.ToString("N"), minutes, Worth(window, load, visit), days)
        {
            WindowId = deal.Visits == 1 ? null : windowId.ToString("N"),
            Kind = _rules.IsRootWork(window.Key) ? WorkKind.Roots : _rules.IsLeafWork(window.Key) ? WorkKind.Leaves : WorkKind.Other,
            IsHeavy = load >= Heavy
        };
        var held = new SortedDictionary<LocalDate, string>(open.Held.Where(day => day.Key >= from && day.Key <= to).ToDictionary());
        return new WorkVisit(windowId, window, visit, deal.Visits, from, LocalDate.Min(LocalDate.Max(to, from), _days[^1].Date), job, held, to > _days[^1].Date)
        {
            LearnedFrom = sessions,
            ShortOfHands = [.. open.ShortOfHands.Where(date => date >= from && date <= to)]
        };
    }

    // Days with time within the window: those that take the work, those that the weather bars, and those with too few people.
    private OpenDays Open(WorkWindow window, HoldDays holds, LocalDate from, LocalDate to)
    {
        var (free, held, few) = (new List<LocalDate>(), new Dictionary<LocalDate, string>(), new List<LocalDate>());
        foreach (var day in _days)
        {
            if (day.Date < from || day.Date > to || day.Minutes <= 0)
                continue;
            if (holds.On(window, day.Date) is { } hold)
                held[day.Date] = hold;
            else if (day.People < Hands.Needed(window.People))
                few.Add(day.Date);
            else
                free.Add(day.Date);
        }
        return new OpenDays(free, held, few);
    }

    private Dictionary<int, LocalDate> Standing(Guid windowId, int visits)
    {
        var standing = new Dictionary<int, LocalDate>();
        for (var visit = 1; visit <= visits; visit++)
        {
            if (_before.TryGetValue(IdOf(windowId, visit), out var date) && date >= _days[0].Date && date <= _days[^1].Date)
                standing[visit] = date;
        }
        return standing;
    }

    private sealed record OpenDays(IReadOnlyList<LocalDate> Free, IReadOnlyDictionary<LocalDate, string> Held, IReadOnlyList<LocalDate> ShortOfHands);

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
}
