namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Shoots stand so far past the outline [cm].</summary>
public sealed record PastOutlineTrigger(double Cm) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["pastOutlineCm"] = Cm };
    public override string Words => $"shoots are over {Cm} cm past the outline";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => TreeYear.Of(year.Seen.PastOutlineCm is { } cm ? cm > Cm : null);
}
