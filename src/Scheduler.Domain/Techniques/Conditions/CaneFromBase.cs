namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Canes rise from the base.</summary>
public sealed class CaneFromBase : Condition
{
    public override string Id => "cane-from-base";

    public override Outcome Test(TreeYear year) =>
        year.Seen.Any(seen => seen.Organ is "base-canes" or "suckers")
            ? Outcome.Limit("Only canes that rise from the base.")
            : Outcome.Bar("other-technique-does-this", "Only canes that rise from the base are clipped; other shoots are pinched or cut back.");
}
