using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>New buds on old wood are wanted, so none goes before they have leaves and one can choose.</summary>
public sealed class BackBudsCanBeTold : Condition
{
    public override string Id => "back-buds-can-be-told";

    public override Outcome Test(TreeYear year) =>
        year.Goals.Contains(Goal.BackBud) && !year.Group.Conifer ? Outcome.Time(new LeafCountTrigger(2)) : Outcome.Pass;
}
