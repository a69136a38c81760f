namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Another technique is logged as done this growth year.</summary>
public sealed record AfterTrigger(string Technique) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["after"] = Technique };
    public override string Words => $"{Technique.Replace('-', ' ')} is done";
    public override double DayOf(TreeYear year, int draw, Side side) => year.EventDay("work:" + Technique, draw);
    public override Truth Today(TreeYear year, Side side) => year.Log.Last(Technique) is null ? Truth.No : Truth.Yes;
}
