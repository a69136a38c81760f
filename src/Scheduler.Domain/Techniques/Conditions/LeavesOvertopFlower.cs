namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>A leafy shoot is seen to overtop a colored or open flower.</summary>
public sealed class LeavesOvertopFlower : Condition
{
    public override string Id => "leaves-overtop-flower";

    public override Outcome Test(TreeYear year) =>
        year.Seen.Any(seen => seen.Organ == "side-shoots" || seen.FlowerBuds == "overtopped")
            ? Outcome.Pass
            : Outcome.Leave("not-wanted-by-goal", "It flowers before the leaves; only if a leafy shoot is seen to overtop a flower.");
}
