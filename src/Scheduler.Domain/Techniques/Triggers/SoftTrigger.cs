namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The base of the shoot is still soft. Once it is firm it does not turn soft again.</summary>
public sealed record SoftTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["soft"] = true };
    public override string Words => "the base of the shoot is still soft";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => IsRuledOut(year) ? Truth.No : TreeYear.Of(year.Seen.Soft);
    public override bool IsRuledOut(TreeYear year) => year.Seen.BaseFirm == true || year.Hardened() == Truth.Yes;
}
