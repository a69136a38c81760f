using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>The owner pinches refined maples (setting 1); letting them run and shearing them is the other way.</summary>
public sealed class PinchingWanted : Condition
{
    public override string Id => "pinching-wanted";

    public override Outcome Test(TreeYear year) => LetsRun(year)
        ? Outcome.Leave("owner-preference", "You let refined maples run and cut them back to the outline.")
        : Outcome.Pass;

    internal static bool LetsRun(TreeYear year) => year.Setting("1") == "let-run"
        && year.Tree.Stage == TreeStage.Refinement
        && year.Species.Id.StartsWith("acer-", StringComparison.Ordinal);
}
