using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Root work follows a full defoliation only on a vigorous tree.</summary>
public sealed class RestedAfterDefoliation : Condition
{
    public override string Id => "rested-after-defoliation";

    public override Outcome Test(TreeYear year) =>
        year.Health < Health.Vigorous && (year.Log.YearsAgo(1, "full-defoliation").Any() || year.Log.YearsAgo(1, "decandling").Any())
            ? Outcome.Bar("too-soon-since-heavy-work", "Heavy work last season; root work waits a year unless it is vigorous.", new SeasonTrigger("next-spring"))
            : Outcome.Pass;
}
