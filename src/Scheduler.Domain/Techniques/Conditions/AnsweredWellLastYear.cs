using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Heavy work of last year was not answered weakly.</summary>
public sealed class AnsweredWellLastYear : Condition
{
    public override string Id => "answered-well-last-year";

    private static readonly string[] Heavy = ["decandling", "full-defoliation", "structural-pruning"];

    public override Outcome Test(TreeYear year)
    {
        foreach (var technique in Heavy)
        {
            if (year.Log.YearsAgo(1, technique).Any(work => work.Result == "weak"))
                return Outcome.Bar("too-soon-since-heavy-work", "Heavy work of last year was answered weakly; it rests a year.", new SeasonTrigger("next-season"));
        }
        return Outcome.Pass;
    }
}
