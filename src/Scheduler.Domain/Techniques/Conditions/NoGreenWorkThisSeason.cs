using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>No root work beyond the light kind in a season of pinching, cutting back or leaf work.</summary>
public sealed class NoGreenWorkThisSeason : Condition
{
    public override string Id => "no-green-work-this-season";

    public override Outcome Test(TreeYear year) => year.Log.ThisYear.Any(work => year.Craft.Find(work.Technique)?.IsGreenWork == true)
        ? Outcome.Bar("too-soon-since-heavy-work", "Tips or leaves were worked this season; root work waits for next spring.", new SeasonTrigger("next-spring"))
        : Outcome.Pass;
}
