namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>So many single leaves are unfolded on the shoot.</summary>
public sealed record LeafCountTrigger(int AtLeast) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["leafCount"] = AtLeast };

    public override string Words => $"the shoot carries {AtLeast} leaves";

    public override double DayOf(TreeYear year, int draw, Side side) => year.LeavesDay(draw, AtLeast);

    public override double[] DaysOf(TreeYear year, Side side) => year.LeavesDays(AtLeast);

    public override Truth Today(TreeYear year, Side side) => year.Leaves(AtLeast, side == Side.Closing);
}
