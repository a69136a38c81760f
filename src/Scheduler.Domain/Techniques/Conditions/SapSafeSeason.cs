namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Bleeding trees are cut in early dormancy or on hardened leaves. The dates stand with the windows.</summary>
public sealed class SapSafeSeason : Condition
{
    public override string Id => "sap-safe-season";

    public override Outcome Test(TreeYear year) => Outcome.Pass;
}
