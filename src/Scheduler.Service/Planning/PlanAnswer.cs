using NodaTime;
using Scheduler.Domain.Planning;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Gardens;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Planning;

/// <summary>The owner's free days with their work, and what found no place.</summary>
public sealed record PlanAnswer(IReadOnlyList<PlanDayAnswer> Days, IReadOnlyList<UnplacedAnswer> Unplaced)
{
    public static PlanAnswer Of(StoredPlan plan, FreeTime free, IReadOnlyDictionary<Guid, StoredWindow> windows, LocalDate from, LocalDate to)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(free);
        var onDay = plan.Visits.Where(visit => visit.Date is not null && windows.ContainsKey(visit.WindowId)).ToLookup(visit => visit.Date!.Value);
        var days = new List<PlanDayAnswer>();
        for (var date = LocalDate.Max(from, plan.MadeFor); date <= to && date <= plan.To; date = date.PlusDays(1))
        {
            var items = onDay[date].OrderBy(visit => visit.Order).Select(visit => PlanItemAnswer.Of(visit, windows[visit.WindowId], free.PeopleOn(date))).ToList();
            if (free.MinutesOn(date) > 0 || items.Count > 0)
                days.Add(new PlanDayAnswer(date, free.MinutesOn(date), items.Sum(item => item.Minutes), free.PeopleOn(date), items));
        }
        return new PlanAnswer(days,
            [.. plan.Unplaced.Where(visit => windows.ContainsKey(visit.WindowId) && visit.From <= to && visit.To >= from)
                .Select(visit => UnplacedAnswer.Of(visit, windows[visit.WindowId]))]);
    }
}

/// <summary>One free day.</summary>
/// <param name="People">How many can lend a hand; null: the owner has not said.</param>
/// <param name="Items">In the order in which to do them.</param>
public sealed record PlanDayAnswer(LocalDate Date, int MinutesFree, int MinutesPlanned, int? People, IReadOnlyList<PlanItemAnswer> Items);

/// <summary>One visit to one tree.</summary>
/// <param name="LearnedFrom">How many of my logged sessions on trees of this size the minutes are learned from; null: they are the technique's own.</param>
/// <param name="Visit">Which of the <paramref name="Visits"/> that this window asks for.</param>
/// <param name="People">How many it takes for safe handling; null: one is enough.</param>
/// <param name="Cautions">What to arrange beforehand.</param>
public sealed record PlanItemAnswer(
    Guid WindowId, Guid TreeId, string TreeName, string Technique, string? Mode, string Title, int Minutes, int? LearnedFrom, int Visit, int Visits, WindowState State,
    string? People, IReadOnlyList<string> Cautions)
{
    internal static PlanItemAnswer Of(PlannedVisit visit, StoredWindow window, int? peopleThere) => new(
        window.Id, window.Key.TreeId, window.Body.TreeName, window.Key.Technique, window.Key.Mode, window.Body.Window.Title, visit.Minutes,
        visit.LearnedFrom, visit.Visit, visit.Visits, window.State, window.Body.Window.People, [.. Needed(window.Body.Window.People, peopleThere)]);

    private static IEnumerable<string> Needed(string? people, int? there)
    {
        if (Hands.Needed(people) > 1)
            yield return there is null ? $"It takes {people} people: arrange for help before that day." : $"It takes {people} people.";
    }
}

/// <summary>One visit without a place, why, and what would make room.</summary>
/// <param name="Cause"><c>no-work-days</c>, <c>no-free-day</c>, <c>held-by-weather</c>, <c>too-few-people</c>, <c>too-little-time</c>, <c>heavy-work-that-day</c>, <c>conflict-that-day</c> or <c>other-visit-that-day</c>.</param>
/// <param name="Date">The day that comes nearest to having room; null when none is free.</param>
/// <param name="MinutesMissing">Minutes that this day, or a day between <paramref name="From"/> and <paramref name="To"/>, would need on top.</param>
public sealed record UnplacedAnswer(
    Guid WindowId, string Reason, string Cause, Guid TreeId, string TreeName, string Technique, string? Mode, string Title, int Visit, int Visits,
    LocalDate From, LocalDate To, LocalDate? Date, int MinutesMissing)
{
    internal static UnplacedAnswer Of(UnplacedVisit visit, StoredWindow window) => new(
        window.Id, visit.Reason, visit.Cause, window.Key.TreeId, window.Body.TreeName, window.Key.Technique, window.Key.Mode,
        window.Body.Window.Title, visit.Visit, visit.Visits, visit.From, visit.To, visit.Date, visit.MinutesMissing);
}
