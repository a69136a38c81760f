using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>The shoot carries no flower bud, or petals are down.</summary>
public sealed class NoFlowerBudOnShoot : Condition
{
    public override string Id => "no-flower-bud-on-shoot";

    public override Outcome Test(TreeYear year)
    {
        if (year.Reached(69) == Truth.Yes || year.Seen.FlowerBudsSeen == false)
            return Outcome.Pass;
        return year.Seen.FlowerBudsSeen == true
            ? Outcome.Time(new PhaseTrigger(69))
            : Outcome.Ask("Look whether the shoots carry flower buds; only those without are touched before the petals are down.");
    }
}
