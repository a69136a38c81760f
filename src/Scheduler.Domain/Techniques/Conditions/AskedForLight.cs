namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Slip-potting only when the owner asks for it.</summary>
public sealed class AskedForLight : Condition
{
    public override string Id => "asked-for-light";

    public override Outcome Test(TreeYear year) => year.IsRequested("repotting", "light") || year.HasRottingRoots
        ? Outcome.Pass
        : Outcome.Leave("not-wanted-by-goal", "Full root work at its interval does this.");
}
