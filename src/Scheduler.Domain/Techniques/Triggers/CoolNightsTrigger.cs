namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>After the longest day, night minima, taken as a mean over some nights, fall under a temperature [C].</summary>
public sealed record CoolNightsTrigger(double BelowC) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["nightMinBelowC"] = BelowC };
    public override string Words => $"nights fall under {BelowC} C";
    public override double DayOf(TreeYear year, int draw, Side side) => year.NightsDay(draw, BelowC, above: false);
    public override Truth Today(TreeYear year, Side side) =>
        year.TodayDay < year.LongestDay ? Truth.No : TreeYear.Of(year.NightMeanC is { } mean ? mean < BelowC : null);
}
