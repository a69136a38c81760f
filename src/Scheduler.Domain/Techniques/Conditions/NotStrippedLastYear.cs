using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>A leaf strip needs two years.</summary>
public sealed class NotStrippedLastYear : Condition
{
    public override string Id => "not-stripped-last-year";

    public override Outcome Test(TreeYear year) => year.Log.YearsAgo(1, "pre-push-defoliation").Any()
        ? Outcome.Bar("too-soon-since-heavy-work", "Stripped last spring; once in two years is the most.", new SeasonTrigger("next-spring"))
        : Outcome.Pass;
}
