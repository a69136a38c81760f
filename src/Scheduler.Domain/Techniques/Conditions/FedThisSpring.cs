using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Fed strongly this spring.</summary>
public sealed class FedThisSpring : Condition
{
    public override string Id => "fed-this-spring";

    public override Outcome Test(TreeYear year)
    {
        if (!year.IsCurrent)
            return Outcome.Pass;
        var fed = year.Log.Last("feeding");
        if (fed is null)
            return Outcome.Ask("Was it fed strongly since the buds swelled? Log the feeding; without it candles stay on.");
        return fed.Extent is Extent.Light
            ? Outcome.Bar("needs-more-vigour", "Not fed well this spring.", new SeasonTrigger("next-season"))
            : Outcome.Pass;
    }
}
