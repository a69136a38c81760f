using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>No flower bud at the tip of the shoot yet, where flowers are a goal.</summary>
public sealed class BeforeTipFlowerBuds : Condition
{
    public override string Id => "before-tip-flower-buds";

    public override Outcome Test(TreeYear year) =>
        year.Goals.Contains(Goal.Flowers) && year.Seen.FlowerBudsSeen == true ? Outcome.Bar("would-cost-bloom") : Outcome.Pass;
}
