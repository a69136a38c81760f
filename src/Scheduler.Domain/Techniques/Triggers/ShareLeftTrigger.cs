namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Only so many of the shoots are left to do [%]. Told by the owner, by logging the work as done.</summary>
public sealed record ShareLeftTrigger(double Percent) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["shareLeftPercent"] = Percent };
    public override string Words => $"under {Percent} % of the shoots are left to do";
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => Truth.No;
}
