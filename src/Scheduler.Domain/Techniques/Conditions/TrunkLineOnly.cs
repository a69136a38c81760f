namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>While the trunk is built only what is of no use on the trunk line goes.</summary>
public sealed class TrunkLineOnly : Condition
{
    public override string Id => "trunk-line-only";

    public override Outcome Test(TreeYear year) =>
        Outcome.Limit("Only what is of no use on the trunk line, and below the first branch unless it adds girth.");
}
