using NodaTime;
using Scheduler.Domain.Techniques;

namespace Scheduler.Domain.Planning;

/// <summary>
/// The order of work within one day (common practice): trees whose window closes first, then care that the forecast asks for, then heavy work
/// in the cool hours, then the rest; all work on one tree together, from looking to watering.
/// </summary>
public sealed class DayOrder(PlanningRules rules)
{
    private enum Turn { Closing, Care, Heavy, Rest }

    public IReadOnlyList<WorkVisit> Of(LocalDate date, IEnumerable<WorkVisit> visits) =>
        [.. visits
            .GroupBy(visit => visit.Window.Key.TreeId)
            .OrderBy(tree => tree.Min(visit => TurnOf(date, visit)))
            .ThenBy(tree => tree.Min(visit => visit.Window.Closes.Likely ?? LocalDate.MaxIsoValue))
            .ThenBy(tree => tree.Key)
            .SelectMany(tree => tree
                .OrderBy(visit => rules.StepOf(visit.Window.Key))
                .ThenBy(visit => visit.Window.Closes.Likely ?? LocalDate.MaxIsoValue)
                .ThenBy(visit => visit.Job.Id, StringComparer.Ordinal))];

    private Turn TurnOf(LocalDate date, WorkVisit visit)
    {
        if (rules.CareWork.Contains(visit.Window.Key.Technique))
            return Turn.Care;
        if (visit.Window.Closes.Likely <= date.PlusDays((int)rules.ClosingDays.Value))
            return Turn.Closing;
        return visit.Job.IsHeavy ? Turn.Heavy : Turn.Rest;
    }
}
