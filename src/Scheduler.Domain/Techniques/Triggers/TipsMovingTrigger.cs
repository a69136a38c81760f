namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Tips of a needle juniper begin to lengthen, as seen; else when buds break by the clock.</summary>
public sealed record TipsMovingTrigger : Trigger
{
    private const int BudBreak = 7;

    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["tipsMoving"] = true };
    public override string Words => "tips begin to move";
    public override double DayOf(TreeYear year, int draw, Side side) => year.PhaseDay(draw, BudBreak);

    public override Truth Today(TreeYear year, Side side) => year.Seen.Latest(seen => seen.TipsMoving) switch
    {
        true => Truth.Yes,
        false when year.Seen.LastOn(seen => seen.TipsMoving == false) == year.Today => Truth.No,
        _ => year.Reached(BudBreak)
    };
}
