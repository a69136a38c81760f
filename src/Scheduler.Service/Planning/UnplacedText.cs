using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Planning;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Planning;

/// <summary>Says why a visit found no place, and what would make room.</summary>
internal sealed class UnplacedText(IReadOnlyList<PlanDay> days, IReadOnlyDictionary<string, string> holds)
{
    /// <summary>No free days are known at all.</summary>
    public const string NoWorkDays = "no-work-days";

    /// <summary>There are free days in the window, but the weather bars each of them.</summary>
    public const string HeldByWeather = "held-by-weather";

    /// <summary>There are free days in the window, but on none of them enough people for safe handling.</summary>
    public const string TooFewPeople = "too-few-people";

    private static readonly LocalDatePattern Day = LocalDatePattern.CreateWithInvariantCulture("dddd d MMMM");

    public UnplacedVisit Of(WorkVisit visit, Unplaced why)
    {
        var date = why.Day is { } day ? days[day].Date : (LocalDate?)null;
        var minutes = visit.Job.Minutes;
        var span = visit.From == visit.To ? $"on {Day.Format(visit.From)}" : $"from {Day.Format(visit.From)} to {Day.Format(visit.To)}";
        if (why.Cause == UnplacedCause.NoFreeDay && visit.ShortOfHands.Count > 0)
            return Made(TooFewPeople, $"It takes {visit.Window.People} people, and too few are there on {Day.Format(visit.ShortOfHands[0])}{Others(visit.ShortOfHands.Count - 1)}. Another pair of hands, said with people on that day, makes room.");
        if (why.Cause == UnplacedCause.NoFreeDay && visit.HoldsOn.Count > 0)
        {
            var (first, hold) = visit.HoldsOn.First();
            return Made(HeldByWeather, $"{holds.GetValueOrDefault(hold, hold)} That bars {Day.Format(first)}{Others(visit.HoldsOn.Count - 1)}. Another free day of {minutes} minutes {span}, once the weather allows, makes room.");
        }
        var reason = why.Cause switch
        {
            UnplacedCause.NoFreeDay => $"No day {span} is free. {minutes} free minutes then make room.",
            UnplacedCause.TooLittleTime => $"It takes {minutes} minutes, and {Day.Format(date!.Value)} comes nearest: {why.MissingMinutes} more minutes that day make room.",
            UnplacedCause.HeavyWorkThatDay => $"{Day.Format(date!.Value)} has time, but heavy work stands there already and there is one such job a day. Another free day {span} makes room.",
            UnplacedCause.ConflictThatDay => $"{Day.Format(date!.Value)} has time, but root work and leaf work on one tree never share a day. Another free day {span} makes room.",
            UnplacedCause.OtherVisitThatDay => $"{Day.Format(date!.Value)} has time, but another visit of the same work stands there. Another free day {span} makes room.",
            _ => throw new ArgumentOutOfRangeException(nameof(why), why.Cause, "No such cause.")
        };
        return Made(Ids.Of(why.Cause), reason);

        UnplacedVisit Made(string cause, string text) =>
            new(visit.WindowId, visit.Visit, visit.Visits, cause, text, visit.From, visit.To, date, why.MissingMinutes);
    }

    public static UnplacedVisit WithoutWorkDays(WorkVisit visit) => new(
        visit.WindowId, visit.Visit, visit.Visits, NoWorkDays,
        "No work days are set for this garden: set workDays, or exceptions with minutes, and the work is put into them.",
        visit.From, visit.To, null, visit.Job.Minutes);

    private static string Others(int count) => count switch { 0 => "", 1 => " and one more free day", _ => $" and {count} more free days" };
}
