namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>After the longest day, night minima, taken as a mean over some nights, fall under a temperature [C] for good.</summary>
public sealed record CoolNightsTrigger(double BelowC) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["nightMinBelowC"] = BelowC };
    public override string Words => $"nights stay under {BelowC} C";
    public override double DayOf(TreeYear year, int draw, Side side) => year.NightsDay(draw, BelowC, above: false);
    // While they may turn warm again this growth year they have not fallen for good.
    public override Truth Today(TreeYear year, Side side)
    {
        if (year.TodayDay < year.LongestDay)
            return Truth.No;
        if (year.NightMeanC is not { } mean)
            return Truth.Unknown;
        return mean >= BelowC ? Truth.No : year.Passed(DaysOf(year, side));
    }
}
