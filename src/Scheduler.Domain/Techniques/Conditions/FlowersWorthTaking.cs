using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Flowers are taken where they are a goal, or where they cost a tree strength that it needs: weak, freshly repotted, or still being built.</summary>
public sealed class FlowersWorthTaking : Condition
{
    public override string Id => "flowers-worth-taking";

    public override Outcome Test(TreeYear year)
    {
        if (year.Goals.Contains(Goal.Flowers) && !year.NeedsRelief || year.IsRequested("flower-fruit-removal"))
            return Outcome.Pass;
        if (!year.NeedsRelief && year.Tree.Stage >= TreeStage.Ramification)
            return Outcome.Leave("not-wanted-by-goal", "A sound tree may keep its flowers.");
        var seen = year.Seen.FlowerPhases.Count > 0 || year.Seen.FlowerBudsSeen == true || year.Seen.FlowersPastPercent is not null;
        return seen ? Outcome.Pass : Outcome.Leave("not-wanted-by-goal", "No flowers were reported.");
    }
}
