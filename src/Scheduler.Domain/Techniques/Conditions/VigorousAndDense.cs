using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Vigorous, and so dense that the trunk line is hidden.</summary>
public sealed class VigorousAndDense : Condition
{
    public override string Id => "vigorous-and-dense";

    public override Outcome Test(TreeYear year)
    {
        if (year.Health < Health.Vigorous)
            return Outcome.Bar("needs-more-vigour");
        if (LeafWork.DensityNow(year) is not { } density)
            return Outcome.Ask("Score how dense the crown is (0-3).");
        return density < year.Thresholds.Dense.Value ? Outcome.Leave("not-dense") : Outcome.Pass;
    }
}
