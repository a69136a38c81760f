namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The crown is at least so dense (0-3).</summary>
public sealed record DensityTrigger(int AtLeast) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["density"] = AtLeast };
    public override string Words => $"density is {AtLeast} or more (the trunk line is hidden)";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;

    // Before leaves are full size there is nothing to score, so nobody is asked.
    public override Truth Today(TreeYear year, Side side) => LeafWork.DensityNow(year) is { } density
        ? TreeYear.Of(density >= AtLeast)
        : year.LeavesFullSize() == Truth.Yes ? Truth.Unknown : Truth.No;
}
