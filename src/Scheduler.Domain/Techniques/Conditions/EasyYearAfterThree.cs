using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>No fourth spring of pinching in a row.</summary>
public sealed class EasyYearAfterThree : Condition
{
    public override string Id => "easy-year-after-three";

    public override Outcome Test(TreeYear year) =>
        Situation.PinchedBefore(year) >= year.Thresholds.MostSpringsInARow.Value
            ? Outcome.Bar("too-soon-since-heavy-work", "Pinched three springs in a row; this is its easy year.", new SeasonTrigger("next-spring"))
            : Outcome.Pass;
}
