using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>All leaves at most every second year, and only off a vigorous tree.</summary>
public sealed class YearOffFullDefoliation : Condition
{
    public override string Id => "year-off-full-defoliation";

    public override Outcome Test(TreeYear year) => Test(year, 1);

    internal static Outcome Test(TreeYear year, int yearsOff)
    {
        if (year.Health < Health.Vigorous)
            return Outcome.Bar("needs-more-vigour");
        var since = Enumerable.Range(1, yearsOff).FirstOrDefault(years => year.Log.YearsAgo(years, "full-defoliation").Any());
        return since == 0
            ? Outcome.Pass
            : Outcome.Bar("too-soon-since-heavy-work", "All its leaves were taken lately; it rests before the next time.", new SeasonTrigger("next-season"));
    }
}
