namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The tree is dormant: from the turn of the year until whatever closes it, such as swelling buds.</summary>
public sealed record DormantTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["dormant"] = true };
    public override string Words => "it is dormant";
    public override double DayOf(TreeYear year, int draw, Side side) =>
        year.HasDormancy ? year.Year.DayOf(year.Year.Turn) : double.PositiveInfinity;
    public override Truth Today(TreeYear year, Side side) => year.HasDormancy && year.Today >= year.Year.Turn ? Truth.Yes : Truth.No;
}
