using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Only for a vigorous tree.</summary>
public sealed class Vigorous : Condition
{
    public override string Id => "vigorous";

    public override Outcome Test(TreeYear year) =>
        year.Health < Health.Vigorous ? Outcome.Bar("needs-more-vigour") : Outcome.Pass;
}
