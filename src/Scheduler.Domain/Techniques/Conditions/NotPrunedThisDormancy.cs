namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Cuts made in autumn, before the year turned, belong to the dormancy that is still going on.</summary>
public sealed class NotPrunedThisDormancy : Condition
{
    public override string Id => "not-pruned-this-dormancy";

    public override Outcome Test(TreeYear year) =>
        year.Log.YearsAgo(1, "structural-pruning/live-wood").Any(work => work.Date >= year.Year.ChillStart && work.Branch is null && work.CrownZone is null)
            ? Outcome.Leave("done-this-window")
            : Outcome.Pass;
}
