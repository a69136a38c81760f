using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Hard root work only in building stages of vigorous deciduous trees.</summary>
public sealed class HardRootsYoungDeciduous : Condition
{
    public override string Id => "hard-roots-young-deciduous";

    public override Outcome Test(TreeYear year)
    {
        if (!year.Group.DormancyCut || year.Group.Conifer)
            return Outcome.Bar("not-for-this-group", "Only deciduous broadleaves bear hard root work.");
        if (year.Tree.Stage >= TreeStage.Ramification)
            return Outcome.Bar("leaves-are-fuel", "Hard root work belongs to the building stages.");
        return year.Health < Health.Vigorous ? Outcome.Bar("needs-more-vigour") : Outcome.Pass;
    }
}
