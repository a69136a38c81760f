namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Days to the average first autumn frost have fallen to this number. Never where no frost comes.</summary>
public sealed record DaysToFrostTrigger(int Days) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["daysToFrost"] = Days };

    public override string Words => $"{Days} days are left to the average first frost";

    public override double DayOf(TreeYear year, int draw, Side side) => year.FrostDay is { } frost ? frost - Days : double.PositiveInfinity;

    public override double[] DaysOf(TreeYear year, Side side) => year.InEveryDraw(DayOf(year, 0, side));

    public override Truth Today(TreeYear year, Side side)
    {
        if (year.FrostDay is not { } frost)
            return Truth.No;
        var left = Math.Floor(frost) - year.TodayDay;
        return (side == Side.Closing ? left < Days : left <= Days) ? Truth.Yes : Truth.No;
    }
}
