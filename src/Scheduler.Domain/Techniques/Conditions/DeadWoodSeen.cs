namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Dead or diseased wood was seen and not taken off since.</summary>
public sealed class DeadWoodSeen : Condition
{
    public override string Id => "dead-wood-seen";

    public override Outcome Test(TreeYear year)
    {
        if (year.Seen.Latest(seen => seen.DeadTwigs) != true)
            return Outcome.Leave("not-wanted-by-goal", "No dead wood was reported.");
        return year.Seen.LastOn(seen => seen.DeadTwigs == true) <= year.Log.Last("structural-pruning/dead-wood")?.Date
            ? Outcome.Leave("done-this-window")
            : Outcome.Pass;
    }
}
