namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Night minima, taken as a mean over some nights, are above a temperature [C].</summary>
public sealed record WarmNightsTrigger(double AboveC) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["nightMinAboveC"] = AboveC };
    public override string Words => $"nights stay above {AboveC} C";
    public override double DayOf(TreeYear year, int draw, Side side) => year.NightsDay(draw, AboveC, above: true);
    public override Truth Today(TreeYear year, Side side) => TreeYear.Of(year.NightMeanC is { } mean ? mean > AboveC : null);
}
