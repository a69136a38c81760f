namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Where roots rot only the rotten ones go, at once; fuller root work waits for its season.</summary>
public sealed class RootsNotRotting : Condition
{
    public override string Id => "roots-not-rotting";

    public override Outcome Test(TreeYear year) => year.HasRottingRoots
        ? Outcome.Leave("not-wanted-by-goal", "Take the rotten roots only; the rest waits until the tree has recovered.")
        : Outcome.Pass;
}
