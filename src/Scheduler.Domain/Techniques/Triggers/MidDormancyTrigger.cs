using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Halfway through dormancy, from the turn of the year to the first swelling of buds.</summary>
public sealed record MidDormancyTrigger : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields { get; } = new Dictionary<string, object> { ["midDormancy"] = true };
    public override string Words => "half of dormancy is over";
    public override double DayOf(TreeYear year, int draw, Side side) => year.MidDormancyDay(draw);

    // Nobody can see it, so nobody is asked: the likely day counts.
    public override Truth Today(TreeYear year, Side side)
    {
        if (year.Reached(1) == Truth.Yes)
            return Truth.Yes;
        return TreeYear.Of(year.Outlook.DrawCount == 0 ? null : Percentiles.IsLikelyBy(DaysOf(year, side), year.TodayDay));
    }
}
