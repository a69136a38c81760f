namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>A shoot is so long [cm]. Unseen counts as not reached.</summary>
public sealed record ShootLengthTrigger(double Cm) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["shootCm"] = Cm };
    public override string Words => $"the shoot is over {Cm} cm";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => year.Seen.ShootCm > Cm ? Truth.Yes : Truth.No;
}
