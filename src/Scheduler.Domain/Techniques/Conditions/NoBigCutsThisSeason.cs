using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>No root work beyond the light kind in a season of big cuts, but on vigorous young deciduous trees.</summary>
public sealed class NoBigCutsThisSeason : Condition
{
    public override string Id => "no-big-cuts-this-season";

    public override Outcome Test(TreeYear year) =>
        !year.MayCutAndRepot && year.Log.ThisYear.Any(work => work.Technique == "structural-pruning" && work.LivingTopPercent > LoadBudget.HeavyPruningPercent)
            ? Outcome.Bar("too-soon-since-heavy-work", "Big cuts were made this season; the roots wait a year.", new SeasonTrigger("next-spring"))
            : Outcome.Pass;
}
