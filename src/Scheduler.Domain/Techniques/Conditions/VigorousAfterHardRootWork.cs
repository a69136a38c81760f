using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>After hard root work the return cut waits for dormancy, unless the tree is vigorous.</summary>
public sealed class VigorousAfterHardRootWork : Condition
{
    public override string Id => "vigorous-after-hard-root-work";

    public override Outcome Test(TreeYear year) => year.RootWork == Extent.Hard && year.Health < Health.Vigorous
        ? Outcome.Bar("roots-rebuilding", "After hard root work the outline cut waits for dormancy.", new PhaseTrigger(97))
        : Outcome.Pass;
}
