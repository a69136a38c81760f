using NodaTime;
using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// What jobs that take leaves ask of each other: a score of density counts only until leaves are taken, and on one day
/// only one of them is done on a part.
/// </summary>
internal static class LeafWork
{
    private const string Thinning = "leaf-thinning";
    private const string Outer = "outer-leaf-removal";
    private const string Partial = "partial-defoliation";
    private const string Full = "full-defoliation";
    private const int RestHeatCd = 200;

    private static readonly string[] Jobs = [Outer, Thinning, Partial, Full];

    /// <summary>Density of the crown as it is now (0-3); null: not scored since leaves were last taken, or are about to be.</summary>
    public static int? DensityNow(TreeYear year)
    {
        if (year.Seen.Density is not { } density || Situation.Holds("thinning-first", year))
            return null;
        LocalDate? taken = null;
        foreach (var work in year.Log.ThisYear)
        {
            if (Jobs.Contains(work.Technique))
                taken = work.Date;
        }
        return year.Seen.DensityOn <= taken ? null : density;
    }

    /// <summary>
    /// Of the leaf jobs that are open today one is done: the one asked for, the fallback of a missed request, thinning
    /// after a pinch, outer leaves, partial defoliation. The others rest until enough heat has passed.
    /// </summary>
    public static List<Judged> OneAtATime(List<Judged> season, TreeYear year)
    {
        var open = season.Where(IsOpen).Select(judged => judged.Judgement.Technique.Id).ToList();
        if (open.Count < 2)
            return season;
        var first = InOrder(season, year).First(open.Contains);
        var rest = year.Because("one-leaf-job-at-a-time", $"{year.Craft.Find(first)!.Name} goes first.");
        return season.ConvertAll(judged => IsOpen(judged) && judged.Judgement.Technique.Id != first
            ? new Judged(judged.Judgement with
            {
                Verdict = Verdict.Leave,
                Reasons = [rest],
                BarredUntil = new HeatTrigger(5, RestHeatCd, null, "work:" + first)
            }, [])
            : judged);
    }

    private static IEnumerable<string> InOrder(List<Judged> season, TreeYear year)
    {
        foreach (var job in Jobs.Where(job => year.IsRequested(job)))
            yield return job;
        if (year.IsRequested(Full) && season.Exists(judged => judged.Judgement is { Technique.Id: Full, Verdict: Verdict.Missed or Verdict.NotAllowed }))
            yield return Partial;
        if (year.IsDoneOrDoing("tip-pinch") && year.Log.Last(Thinning) is null)
            yield return Thinning;
        yield return Outer;
        yield return Partial;
        yield return Thinning;
        yield return Full;
    }

    private static bool IsOpen(Judged judged) =>
        judged.Judgement.Verdict == Verdict.DoNow && Jobs.Contains(judged.Judgement.Technique.Id);
}
