using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques.Conditions;
using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Promises;

/// <summary>Root work comes round again after the interval of the tree's stage and kind (common practice).</summary>
internal static class NextRootWork
{
    private const string What = "next-root-work";

    public static FollowUpRule? Of(WorkRecord work, TreeYear year)
    {
        if (work.Technique != SeasonRun.Repotting)
            return null;
        var (low, high) = RootWorkDue.Interval(year);
        var seasons = low == high ? $"{low}" : $"{low} to {high}";
        return new FollowUpRule(
            AppliesTo.Every, [Verdict.DoNow], What, new TextTrigger($"{seasons} seasons after this work"), SeasonRun.Repotting,
            $"Root work comes round again after {seasons} seasons, if there is need.", Provenance.CommonPractice);
    }

    public static SeasonSpan Span(WorkRecord work, TreeYear year, PromiseDue due)
    {
        var (low, high) = RootWorkDue.Interval(year);
        var worked = GrowthYear.Of(work.Date, year.Year.Hemisphere);
        return SeasonSpan.OfYears(SeasonSpan.Ahead(worked, (int)low), SeasonSpan.Ahead(worked, (int)high), due.YearOf);
    }
}
