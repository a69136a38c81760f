namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Fruit has set, as seen; no clock knows it.</summary>
public sealed record FruitSetTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["fruitSet"] = true };
    public override string Words => "fruit has set";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => year.Seen.Latest(seen => seen.FruitSet) == true ? Truth.Yes : Truth.No;
}
