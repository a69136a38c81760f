namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Heavy bends are made only when the owner asks for one.</summary>
public sealed class AskedForHeavyBend : Condition
{
    public override string Id => "asked-for-heavy-bend";

    public override Outcome Test(TreeYear year) => year.IsRequested("wiring", "heavy")
        ? Outcome.Pass
        : Outcome.Leave("not-wanted-by-goal", "You asked for no heavy bend.");
}
