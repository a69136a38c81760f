namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Spring growth of a scale conifer is firm: seen so, or hardened by the clock.</summary>
public sealed record SpringGrowthFirmTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["springGrowthFirm"] = true };
    public override string Words => "spring growth is firm";
    public override double DayOf(TreeYear year, int draw, Side side) => year.HardenedDay(draw);
    public override Truth Today(TreeYear year, Side side) => year.Seen.SpringGrowthFirm is { } firm ? TreeYear.Of(firm) : year.Hardened();
}
