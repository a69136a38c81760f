namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>In ramification only where the crown is dense already.</summary>
public sealed class PartDense : Condition
{
    public override string Id => "part-dense";

    public override Outcome Test(TreeYear year) => year.Seen.LastDensity switch
    {
        null => Outcome.Ask("Score how dense the crown is (0-3). Only dense parts are pinched at this stage, the others run and are cut back."),
        { } density when density >= year.Thresholds.Dense.Value => Outcome.Limit("Only in dense parts, usually the top."),
        _ => Outcome.Bar("pinching-thins")
    };
}
