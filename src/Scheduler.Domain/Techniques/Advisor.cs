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
        var (season, year) = SeasonRun.Today(new TreeYear(craft, tree, garden, nights, tree.Current));
        var advice = new List<TechniqueAdvice>(craft.Techniques.Count);
        // The modes of one technique stand together.
        for (var begin = 0; begin < season.Count;)
        {
            var end = begin + 1;
            while (end < season.Count && ReferenceEquals(season[end].Judgement.Technique, season[begin].Judgement.Technique))
                end++;
            advice.Add(AdviceWriter.Of(season[begin..end]));
            begin = end;
        }
        foreach (var technique in craft.Care)
            advice.Add(CareAdvice.Of(technique, year));
        return advice;
    }
}
