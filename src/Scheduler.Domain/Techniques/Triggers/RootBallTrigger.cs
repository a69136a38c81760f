namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The root ball is warmer than this [C], by thermometer, or failing that by the mean of the last nights and days.</summary>
public sealed record RootBallTrigger(double AboveC) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["rootBallAboveC"] = AboveC };
    public override string Words => $"the root ball is above {AboveC} C";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;

    public override Truth Today(TreeYear year, Side side)
    {
        if (year.Garden.RootBallC is { } measured)
            return measured > AboveC ? Truth.Yes : Truth.No;
        return year.AirMeanC > AboveC ? Truth.Yes : Truth.Unknown;
    }
}
