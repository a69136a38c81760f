namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Days grow longer.</summary>
public sealed record DayLengthRisingTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["dayLengthRising"] = true };
    public override string Words => "days grow longer";
    public override double DayOf(TreeYear year, int draw, Side side) => year.ShortestDay;
    public override Truth Today(TreeYear year, Side side) =>
        year.TodayDay >= year.ShortestDay && year.TodayDay < year.LongestDay ? Truth.Yes : Truth.No;
}
