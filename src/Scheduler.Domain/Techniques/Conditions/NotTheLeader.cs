using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>The chosen leader is never trimmed.</summary>
public sealed class NotTheLeader : Condition
{
    public override string Id => "not-the-leader";

    public override Outcome Test(TreeYear year) =>
        year.Branch?.Role == BranchRole.Leader ? Outcome.Bar("leader-must-run") : Outcome.Pass;
}
