namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Days have shortened so far that new growth must not be forced any more.</summary>
public sealed record DayLengthBackstopTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["dayLengthBackstop"] = true };
    public override string Words => "days have grown too short to force new growth";
    public override double DayOf(TreeYear year, int draw, Side side) => year.BackstopDay;
    public override double[] DaysOf(TreeYear year, Side side) => year.InEveryDraw(year.BackstopDay);
    public override Truth Today(TreeYear year, Side side) => year.TodayDay >= year.BackstopDay ? Truth.Yes : Truth.No;
}
