namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>
/// The day of the growth year on which the log of earlier years has the work, as their mean, with days to come before and
/// after it. Never where no earlier year has it.
/// </summary>
public sealed record UsualDayTrigger(string Of, int Low, int High) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object>
    {
        ["usualDay"] = new Dictionary<string, object> { ["of"] = Of, ["days"] = new[] { Low, High } }
    };

    public override string Words => $"the usual day of {Of.Split('/')[0].Replace('-', ' ')} here is near";

    public override double DayOf(TreeYear year, int draw, Side side) =>
        year.UsualDay(Of) is { } usual ? usual + (side == Side.Closing ? High : Low) : double.PositiveInfinity;

    public override double[] DaysOf(TreeYear year, Side side) => year.InEveryDraw(DayOf(year, 0, side));

    public override Truth Today(TreeYear year, Side side)
    {
        var day = DayOf(year, 0, side);
        return (side == Side.Closing ? year.TodayDay > day : year.TodayDay >= day) ? Truth.Yes : Truth.No;
    }
}
