namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The base of the shoot is firm. Only the owner's fingers can tell.</summary>
public sealed record BaseFirmTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["baseFirm"] = true };
    public override string Words => "the base of the shoot is firm";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) =>
        year.Hardened() == Truth.Yes ? Truth.Yes : TreeYear.Of(year.Seen.BaseFirm);
}
