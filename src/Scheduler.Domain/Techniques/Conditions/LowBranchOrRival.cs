using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>In trunk building only low branches to be kept alive, or rivals of the leader.</summary>
public sealed class LowBranchOrRival : Condition
{
    public override string Id => "low-branch-or-rival";

    public override Outcome Test(TreeYear year) => year.Branch?.Role is BranchRole.LowBranch or BranchRole.Rival
        ? Outcome.Pass
        : Outcome.Leave("leaves-are-fuel", "Everything grows for girth; only a low branch to be kept alive or a rival of the leader is shortened.");
}
