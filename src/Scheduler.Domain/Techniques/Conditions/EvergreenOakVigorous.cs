using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Evergreen oaks are stripped only when vigorous.</summary>
public sealed class EvergreenOakVigorous : Condition
{
    public override string Id => "evergreen-oak-vigorous";

    public override Outcome Test(TreeYear year) =>
        year.Species.Id.StartsWith("quercus-", StringComparison.Ordinal) && year.Health < Health.Vigorous
            ? Outcome.Bar("needs-more-vigour")
            : Outcome.Pass;
}
