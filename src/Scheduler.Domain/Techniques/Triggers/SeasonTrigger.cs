namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>A season to come: <c>next-spring</c>, <c>next-season</c>, <c>in-two-springs</c>, <c>late-dormancy</c>. Never this growth year.</summary>
public sealed record SeasonTrigger(string Season) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["season"] = Season };
    public override string Words => Season.Replace('-', ' ');
    public override double DayOf(TreeYear year, int draw, Side side) => double.PositiveInfinity;
    public override Truth Today(TreeYear year, Side side) => Truth.No;
}
