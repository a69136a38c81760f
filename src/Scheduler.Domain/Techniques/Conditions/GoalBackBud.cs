using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Only where back-budding is the goal.</summary>
public sealed class GoalBackBud : Condition
{
    public override string Id => "goal-back-bud";

    public override Outcome Test(TreeYear year) =>
        year.Goals.Contains(Goal.BackBud) || year.IsRequested("pre-push-defoliation") ? Outcome.Pass : Outcome.Leave("not-wanted-by-goal");
}
