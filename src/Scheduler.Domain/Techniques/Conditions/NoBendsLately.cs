using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>No root work for weeks after heavy bends.</summary>
public sealed class NoBendsLately : Condition
{
    public override string Id => "no-bends-lately";

    public override Outcome Test(TreeYear year)
    {
        var bent = year.Log.Ever("wiring/heavy-bend").LastOrDefault()?.Date;
        return year.RestLeft(bent, year.Thresholds.BendRestDays) is { } left
            ? Outcome.Bar("too-soon-since-heavy-work", "Heavy bends come first; the roots wait until they have settled.", new DaysTrigger(left, left))
            : Outcome.Pass;
    }
}
