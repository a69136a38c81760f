namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The bench is warmer than this again [C], so that a sheltered tree may go out.</summary>
public sealed record BenchMinAboveTrigger(double AboveC) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["benchMinAboveC"] = AboveC };
    public override string Words => $"it is above {AboveC} C at the bench again";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => TreeYear.Of(year.Nights.MinC(0) is { } min ? min > AboveC : null);
}
