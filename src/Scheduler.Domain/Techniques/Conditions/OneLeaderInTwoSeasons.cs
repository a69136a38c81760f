namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>A leader that was chosen last season stays; only its rivals are cut.</summary>
public sealed class OneLeaderInTwoSeasons : Condition
{
    public override string Id => "one-leader-in-two-seasons";

    public override Outcome Test(TreeYear year) => year.Log.YearsAgo(1, "leader-change").Any()
        ? Outcome.Limit("The leader was chosen last season. Cut only its rivals and choose no other.")
        : Outcome.Pass;
}
