using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Fruit was seen, and the tree has a reason to carry less of it.</summary>
public sealed class FruitWorthTaking : Condition
{
    public override string Id => "fruit-worth-taking";

    public override Outcome Test(TreeYear year)
    {
        if (year.IsRequested("flower-fruit-removal"))
            return Outcome.Pass;
        if (year.Seen.Latest(seen => seen.FruitSet) != true && !year.Seen.Any(seen => seen.Bbch is >= 70 and < 90))
            return Outcome.Leave("not-wanted-by-goal", "No fruit was reported.");
        return year.NeedsRelief || year.Tree.Stage <= TreeStage.BranchBuilding || year.Goals.Contains(Goal.Flowers)
            ? Outcome.Pass
            : Outcome.Leave("not-wanted-by-goal", "A sound tree may carry its fruit.");
    }
}
