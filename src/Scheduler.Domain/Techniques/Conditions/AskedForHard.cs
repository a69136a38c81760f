namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Hard root work only when the owner asks for it.</summary>
public sealed class AskedForHard : Condition
{
    public override string Id => "asked-for-hard";

    public override Outcome Test(TreeYear year) => year.IsRequested("repotting", "hard")
        ? Outcome.Pass
        : Outcome.Leave("not-wanted-by-goal", "Normal root work is enough.");
}
