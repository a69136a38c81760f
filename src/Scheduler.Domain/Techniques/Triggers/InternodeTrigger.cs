namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>The next internode is so long [cm]. Unseen counts as not reached.</summary>
public sealed record InternodeTrigger(double Cm) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["internodeCm"] = Cm };
    public override string Words => $"the next internode is over {Cm} cm";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => year.Seen.InternodeCm > Cm ? Truth.Yes : Truth.No;
}
