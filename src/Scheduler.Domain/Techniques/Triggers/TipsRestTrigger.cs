namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>No new tips are moving. Only a look can tell.</summary>
public sealed record TipsRestTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["tipsMoving"] = false };
    public override string Words => "no new tips are moving";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => TreeYear.Of(!year.Seen.TipsMoving);
}
