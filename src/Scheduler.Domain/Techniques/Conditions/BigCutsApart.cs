using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Big cuts come every other year, and the season bears only so much of the living top.</summary>
public sealed class BigCutsApart : Condition
{
    public override string Id => "big-cuts-apart";

    private static readonly string[] Cuts = ["structural-pruning", "leader-change"];

    public override Outcome Test(TreeYear year)
    {
        var share = year.Group.Conifer ? year.Thresholds.TopShareConiferPercent.Value : year.Thresholds.TopShareDeciduousPercent.Value;
        var gone = Cuts.Sum(technique => year.Whole.Log.Ever(technique).Where(work => year.Year.Contains(work.Date)).Sum(work => work.LivingTopPercent ?? 0));
        if (gone >= share && year.Whole.Log.Visits("structural-pruning/live-wood", (int)year.Thresholds.VisitDays.Value).Count == 0)
            return Outcome.Bar("too-soon-since-heavy-work", "As much of the living top went this season as it can bear.", new SeasonTrigger("next-season"));
        if (year.Whole.Log.Last("full-defoliation") is not null || year.RootWork is Extent.Normal or Extent.Hard && !year.MayCutAndRepot)
            return Outcome.Limit($"At most {LoadBudget.HeavyPruningPercent} % of the living top, because of the other heavy work of this season.");
        if (year.Whole.Log.YearsAgo(1, "structural-pruning").Any(work => work.LivingTopPercent > LoadBudget.HeavyPruningPercent))
            return Outcome.Limit("Big cuts were made last season, so only small ones now.");
        return gone > 0 ? Outcome.Limit($"{gone:0} % of the living top went this season already; at most {share:0} % in all.") : Outcome.Pass;
    }
}
