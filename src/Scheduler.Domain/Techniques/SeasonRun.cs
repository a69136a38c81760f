using Scheduler.Domain.Techniques.Conditions;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// Judges all techniques of one tree in one growth year, in the order in which they look at each other: work that is
/// not done yet is planned on its likely day, so that later work can count from it.
/// </summary>
internal static class SeasonRun
{
    private const int Capacity = 40;
    public const string Strip = "pre-push-defoliation";
    public const string Repotting = "repotting";

    private static readonly string[] Order =
    [
        "flower-fruit-removal", Repotting, Strip, "tip-pinch", "early-clip", "flower-side-tips", "decandling", "candle-pinch", "conifer-tips",
        "leaf-thinning", "outer-leaf-removal", "partial-defoliation", "full-defoliation", "cut-back", "bud-thinning", "needle-plucking",
        "outline-trim", "leader-change", "structural-pruning", "wiring"
    ];

    public static List<Technique> Ordered(IEnumerable<Technique> techniques) => [.. techniques.OrderBy(technique => Place(technique.Id))];

    /// <summary>True up to the work that counts as done, for all that follows, on the day it is open.</summary>
    public static bool IsSettledFirst(Technique technique) => Place(technique.Id) <= Place(Strip);

    /// <summary>
    /// All hand work as it stands today, and the tree as all else sees it: what is open today and excludes other work counts
    /// as this season's.
    /// </summary>
    public static (List<Judged> Season, TreeYear Year) Today(TreeYear year)
    {
        var settled = new List<Judged>(Capacity);
        var parts = PartsOf(year);
        Add(settled, year.Craft.Settled, year, parts);
        var season = Apart(settled, year);
        if (Doing(season) is { Count: > 0 } doing)
        {
            year = year.WithDoing(doing);
            parts = PartsOf(year);
            settled.Clear();
            Add(settled, year.Craft.Settled, year, parts);
            season = Apart(settled, year);
        }
        Add(season, year.Craft.Others, year, parts);
        return (OneBudget.Share(OneLeafJob.AtATime(season), year), year);
    }

    private static int Place(string technique) => Array.IndexOf(Order, technique) is >= 0 and var place ? place : Order.Length;

    private static List<TreeYear> PartsOf(TreeYear year) => [.. TreePart.Of(year).Select(year.For)];

    private static void Add(List<Judged> season, IReadOnlyList<Technique> techniques, TreeYear year, List<TreeYear> parts)
    {
        foreach (var technique in techniques)
        {
            IReadOnlyList<TreeYear> asked = technique.IsWholeTree ? [year] : parts;
            foreach (var mode in technique.ModesFor(year.GroupCode))
                season.Add(Of(technique, mode, year, asked));
        }
    }

    // Root work beyond the light kind, or else a leaf strip, that is open today.
    private static List<string> Doing(List<Judged> season)
    {
        var roots = season.FindAll(judged => judged.Judgement.Verdict == Verdict.DoNow && IsRootWork(judged)).ConvertAll(judged => judged.Judgement.Key);
        if (roots.Count > 0)
            return roots;
        return season.Exists(judged => judged.Judgement is { Technique.Id: Strip, Verdict: Verdict.DoNow }) ? [Strip] : [];
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

    private static bool IsToCome(Judgement judgement) => judgement is { Mode.IsStatement: false, IsBegun: false } && judgement.Visits.Count == 0
        && judgement.Verdict is Verdict.DoNow or Verdict.Wait or Verdict.Ask;

    private static double[]? Likely(Judgement judgement) =>
        Passes.Of(judgement, 1) is { Count: > 0 } passes ? NotBefore(passes[0].Opens, judgement.Year.TodayDay) : null;

    private static double[] NotBefore(double[] days, int least)
    {
        var later = new double[days.Length];
        for (var draw = 0; draw < later.Length; draw++)
            later[draw] = Math.Max(days[draw], least);
        return later;
    }
}
