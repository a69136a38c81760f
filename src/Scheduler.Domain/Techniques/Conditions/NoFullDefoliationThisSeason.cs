using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>All leaves were taken this season.</summary>
public sealed class NoFullDefoliationThisSeason : Condition
{
    public override string Id => "no-full-defoliation-this-season";

    public override Outcome Test(TreeYear year) => year.Log.Last("full-defoliation") is null
        ? Outcome.Pass
        : Outcome.Bar("too-soon-since-heavy-work", "All leaves were taken this season.", new SeasonTrigger("next-season"));
}
