using Scheduler.Domain.Techniques.Care;
using Scheduler.Domain.Techniques.Conditions;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// Judges all techniques of one tree in one growth year, in the order in which they look at each other: work that is
/// not done yet is planned on its likely day, so that later work can count from it.
/// </summary>
internal static class SeasonRun
{
    public const string Strip = "pre-push-defoliation";
    public const string Repotting = "repotting";

    private static readonly string[] Order =
    [
        "flower-fruit-removal", Repotting, Strip, "tip-pinch", "early-clip", "flower-side-tips", "decandling", "candle-pinch", "conifer-tips",
        "leaf-thinning", "outer-leaf-removal", "partial-defoliation", "full-defoliation", "cut-back", "bud-thinning", "needle-plucking",
        "outline-trim", "leader-change", "structural-pruning", "wiring"
    ];

    public static IEnumerable<Technique> Ordered(Craft craft) => craft.Techniques.OrderBy(technique =>
        Array.IndexOf(Order, technique.Id) is >= 0 and var place ? place : Order.Length);

    public static List<Judged> Of(TreeYear year)
    {
        var judged = new List<Judged>();
        var parts = TreePart.Of(year).Select(year.For).ToList();
        foreach (var technique in Ordered(year.Craft))
        {
            if (CareAdvice.IsCare(technique))
                continue;
            IReadOnlyList<TreeYear> asked = TreePart.IsWholeTreeWork(technique.Id) ? [year] : parts;
            foreach (var mode in technique.ModesFor(year.GroupCode))
                judged.Add(Of(technique, mode, year, asked));
        }
        return OneLeafJob.AtATime(Apart(judged, year));
    }

    // A leaf strip and root work beyond the light kind never share a spring. Roots that are due go first.
    private static List<Judged> Apart(List<Judged> season, TreeYear year)
    {
        var strips = season.Exists(judged => judged.Judgement.Technique.Id == Strip && judged.IsComing);
        var roots = strips && season.Exists(judged => IsRootWork(judged) && judged.IsComing);
        if (!strips || !roots)
            return season;
        var rootsFirst = RootWorkDue.IsDue(year);
        return season.ConvertAll(judged => (rootsFirst ? judged.Judgement.Technique.Id == Strip : IsRootWork(judged))
            ? judged.Answering(Verdict.NotAllowed, year.Because("strip-and-roots-apart"))
            : judged);
    }

    private static bool IsRootWork(Judged judged) => judged.Judgement.Technique.Id == Repotting && judged.Judgement.Mode.Id != "light";

    private static Judged Of(Technique technique, TechniqueMode mode, TreeYear tree, IReadOnlyList<TreeYear> parts)
    {
        var answers = new Judgement[parts.Count];
        var isAlone = true;
        for (var index = 0; index < answers.Length; index++)
        {
            var part = parts[index];
            var judgement = answers[index] = Judge.Of(technique, mode, part, isAlone);
            isAlone &= judgement.Verdict is not (Verdict.DoNow or Verdict.Ask);
            if (IsToCome(judgement))
                part.Plan(judgement.Key, () => Likely(judgement));
        }
        var judged = new Judged(answers);
        // What is done to the whole tree counts from the part that comes first.
        if (answers[0].Year != tree && IsToCome(judged.Judgement))
            tree.Plan(judged.Judgement.Key, () => Likely(judged.Judgement));
        return judged;
    }

    private static bool IsToCome(Judgement judgement) => !judgement.Mode.IsStatement && judgement.Visits.Count == 0
        && judgement.Verdict is Verdict.DoNow or Verdict.Wait or Verdict.Ask;

    private static double[]? Likely(Judgement judgement) =>
        Passes.Of(judgement, 1) is { Count: > 0 } passes ? [.. passes[0].Opens.Select(day => Math.Max(day, judgement.Year.TodayDay))] : null;
}
