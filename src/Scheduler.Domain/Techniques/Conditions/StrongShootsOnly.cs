namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Pass, but strong shoots only, and about half of their tips.</summary>
public sealed class StrongShootsOnly : Condition
{
    public override string Id => "strong-shoots-only";

    public override Outcome Test(TreeYear year) => Outcome.Limit("Strong shoots only, and about half of their tips.");
}
