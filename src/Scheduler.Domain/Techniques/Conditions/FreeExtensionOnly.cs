namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Pines, junipers and sprays are trimmed by their own tip work.</summary>
public sealed class FreeExtensionOnly : Condition
{
    public override string Id => "free-extension-only";

    public override Outcome Test(TreeYear year) => Outcome.Bar("other-technique-does-this", "Its own tip work keeps the outline.");
}
