using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Trim only until flower buds are set, about eight weeks after petals are down, where flowers are a goal.</summary>
public sealed class TrimBeforeFlowerBuds : Condition
{
    public override string Id => "trim-before-flower-buds";

    public override Outcome Test(TreeYear year)
    {
        if (!year.Goals.Contains(Goal.Flowers))
            return Outcome.Pass;
        var weeks = (int)year.Thresholds.AfterBloomDays.Value;
        return new DaysTrigger(weeks, weeks, "bbch-69").Today(year, Side.Closing) == Truth.Yes
            ? Outcome.Bar("would-cost-bloom", until: new PhaseTrigger(69))
            : Outcome.Pass;
    }
}
