using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Wire comes off at the first shadow of a bite, when the owner asks, or before buds burst on a deciduous tree that grew a season in it.</summary>
public sealed class WireOffDue : Condition
{
    public override string Id => "wire-off-due";

    public override Outcome Test(TreeYear year)
    {
        if (!year.IsCurrent || !year.Wire.IsOn)
            return Outcome.Leave("not-wanted-by-goal", "No wire is known to be on.");
        if (year.Wire.IsTight || year.IsRequested("wiring", "remove"))
            return Outcome.Pass;
        return year.Group.DormancyCut && year.Wire.PutOn < year.Year.Turn
            ? Outcome.Time(new PhaseTrigger(3))
            : Outcome.Leave("not-wanted-by-goal", "It was not seen tight; go on checking.");
    }
}
