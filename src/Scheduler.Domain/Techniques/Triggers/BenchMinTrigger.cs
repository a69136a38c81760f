namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The forecast minimum at the bench is at or below this [C].</summary>
public sealed record BenchMinTrigger(double AtMostC) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["benchMinC"] = AtMostC };
    public override string Words => $"the bench is forecast to fall to {AtMostC} C or lower";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => TreeYear.Of(year.Nights.MinC(0) is { } min ? min <= AtMostC : null);
}
