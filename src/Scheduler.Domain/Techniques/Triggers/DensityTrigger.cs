namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The crown is at least so dense (0-3).</summary>
public sealed record DensityTrigger(int AtLeast) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["density"] = AtLeast };
    public override string Words => $"density is {AtLeast} or more (the trunk line is hidden)";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => TreeYear.Of(year.Seen.Density is { } density ? density >= AtLeast : null);
}
