using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>In a season of root work the leader is chosen and marked; its rivals are cut once the flush has hardened.</summary>
public sealed class RivalsAfterHardening : Condition
{
    public override string Id => "rivals-after-hardening";

    public override Outcome Test(TreeYear year) =>
        year.RootWork is Extent.Normal or Extent.Hard ? Outcome.Time(new HardenedTrigger()) : Outcome.Pass;
}
