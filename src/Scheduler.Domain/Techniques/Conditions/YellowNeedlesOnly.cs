namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>One-flush pines give only needles that yellow or are in their third year.</summary>
public sealed class YellowNeedlesOnly : Condition
{
    public override string Id => "yellow-needles-only";

    public override Outcome Test(TreeYear year) => Outcome.Limit("Only needles that turn yellow or are in their third year.");
}
