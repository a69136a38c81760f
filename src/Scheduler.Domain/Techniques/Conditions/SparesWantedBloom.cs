using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Leaves beside wanted flowers stay, and none go between hardening and the next bloom.</summary>
public sealed class SparesWantedBloom : Condition
{
    public override string Id => "spares-wanted-bloom";

    private const int VeryDense = 3;

    public override Outcome Test(TreeYear year)
    {
        if (!year.Goals.Contains(Goal.Flowers))
            return Outcome.Pass;
        var isEarly = year.Hardened() == Truth.No && LeafWork.DensityNow(year) >= VeryDense;
        return isEarly ? Outcome.Limit("Not on spurs that flower.") : Outcome.Bar("would-cost-bloom");
    }
}
