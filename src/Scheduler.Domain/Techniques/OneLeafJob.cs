using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// Of the leaf jobs only one is to be done on a part on one day: the one the owner asked for, else thinning where tips
/// were pinched in this flush, else outer leaves, else part of the leaves. The others follow once so much heat has
/// passed since (common practice).
/// </summary>
internal static class OneLeafJob
{
    private const string Outer = "outer-leaf-removal";
    private const string Thinning = "leaf-thinning";
    private const string Partial = "partial-defoliation";
    private const string Full = "full-defoliation";

    public static List<Judged> AtATime(List<Judged> season)
    {
        var jobs = season.Where(judged => judged.Judgement is { Verdict: Verdict.DoNow, Technique.Id: Outer or Thinning or Partial or Full }).ToList();
        if (jobs.Count < 2)
            return season;
        var first = jobs.SelectMany(job => job.Parts.Where(part => part.Verdict == Verdict.DoNow))
            .GroupBy(part => part.Year.Part)
            .ToDictionary(part => part.Key, part => part.MinBy(Rank)!.Technique.Id);
        return season.ConvertAll(judged => jobs.Contains(judged) ? Behind(judged, first) : judged);
    }

    private static Judged Behind(Judged judged, Dictionary<TreePart, string> first) => new([.. judged.Parts.Select(part =>
    {
        if (part.Verdict != Verdict.DoNow || first[part.Year.Part] is var chosen && chosen == part.Technique.Id)
            return part;
        var gap = new HeatTrigger(5, part.Year.Thresholds.LeafJobGapCd.Value, null, $"work:{chosen}");
        return part with
        {
            Verdict = Verdict.Leave,
            Reasons = [part.Year.Because("one-leaf-job-at-a-time")],
            BarredUntil = gap,
            Later = part with { Verdict = Verdict.Wait, Opens = part.Opens is { } opens ? new AllTrigger([opens, gap]) : gap }
        };
    })]);

    private static int Rank(Judgement job)
    {
        var year = job.Year;
        if (year.IsRequested(job.Technique.Id))
            return 0;
        if (job.Technique.Id == Partial && year.IsRequested(Full))
            return 1;
        return job.Technique.Id switch
        {
            Thinning => year.Log.Last("tip-pinch") is not null && year.Log.Last(Thinning) is null ? 2 : 5,
            Outer => 3,
            Partial => 4,
            _ => 6
        };
    }
}
