namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The leaves that were left have grown to full size.</summary>
public sealed record LeavesFullSizeTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["leavesFullSize"] = true };
    public override string Words => "the leaves are full size";
    public override double DayOf(TreeYear year, int draw, Side side) => year.FullSizeDay(draw);
    public override Truth Today(TreeYear year, Side side) => year.LeavesFullSize();
}
