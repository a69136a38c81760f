namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>A refined tree gives up only a small share of its living top.</summary>
public sealed class TopShareOfARefinedTree : Condition
{
    public override string Id => "top-share-of-a-refined-tree";

    public override Outcome Test(TreeYear year) => Outcome.Limit($"At most {year.Thresholds.TopShareRefinedPercent.Value} % of the living top of a refined tree.");
}
