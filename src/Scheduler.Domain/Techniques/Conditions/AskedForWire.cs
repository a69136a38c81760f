namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>A refined tree is wired only when the owner asks for it.</summary>
public sealed class AskedForWire : Condition
{
    public override string Id => "asked-for-wire";

    public override Outcome Test(TreeYear year) => year.IsRequested("wiring")
        ? Outcome.Pass
        : Outcome.Leave("not-wanted-by-goal", "A refined tree keeps its shape; ask for wire where a branch must move.");
}
