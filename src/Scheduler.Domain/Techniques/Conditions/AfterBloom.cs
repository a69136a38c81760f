namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>From petals down until new flower buds begin. The window rule of these groups carries the dates.</summary>
public sealed class AfterBloom : Condition
{
    public override string Id => "after-bloom";

    public override Outcome Test(TreeYear year) => Outcome.Pass;
}
