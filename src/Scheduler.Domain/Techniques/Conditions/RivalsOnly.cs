using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Once rivals of the leader are named, only they are cut; the leader and all other branches are left to grow.</summary>
public sealed class RivalsOnly : Condition
{
    public override string Id => "rivals-only";

    public override Outcome Test(TreeYear year)
    {
        if (year.Branch?.Role == BranchRole.Leader)
            return Outcome.Leave("leader-must-run", "This is the new top. Let it run, and tie or wire it up lightly.");
        var isOther = !year.Part.IsWhole && year.Branch?.Role != BranchRole.Rival;
        return isOther && year.Tree.Branches.Any(branch => branch.Role == BranchRole.Rival)
            ? Outcome.Leave("leaves-are-fuel", "It grows for girth; only the rivals of the leader are cut.")
            : Outcome.Pass;
    }
}
