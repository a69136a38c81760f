using Scheduler.Domain.Techniques.Care;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// Answers every technique once for one tree today. A technique with modes answers each of them, and the tree's answer
/// is the first of do-now, ask, wait, missed, leave, not-allowed among them.
/// </summary>
public static class Advisor
{
    public static IReadOnlyList<TechniqueAdvice> Advise(Craft craft, TreeFacts tree, GardenFacts garden)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentNullException.ThrowIfNull(garden);
        var nights = new BenchNights(garden, craft.Thresholds);
        var year = new TreeYear(craft, tree, garden, nights, tree.Current);
        var season = SeasonRun.Of(year);
        var doing = DoneFirst(season);
        if (doing.Count > 0)
        {
            // What is to be done today counts as this season's work for what excludes it.
            year = year.WithDoing(doing);
            season = SeasonRun.Of(year);
        }
        season = OneBudget.Share(season, year);
        return
        [
            .. season.GroupBy(judged => judged.Judgement.Technique.Id).Select(modes => AdviceWriter.Of([.. modes])),
            .. craft.Techniques.Where(CareAdvice.IsCare).Select(technique => CareAdvice.Of(technique, year))
        ];
    }

    // Root work or a leaf strip that is open today.
    private static List<string> DoneFirst(List<Judged> season)
    {
        var roots = season.Where(judged => judged.Judgement is { Technique.Id: SeasonRun.Repotting, Verdict: Verdict.DoNow, Mode.Id: not "light" })
            .Select(judged => judged.Judgement.Key).ToList();
        if (roots.Count > 0)
            return roots;
        return season.Exists(judged => judged.Judgement is { Technique.Id: SeasonRun.Strip, Verdict: Verdict.DoNow }) ? [SeasonRun.Strip] : [];
    }
}
