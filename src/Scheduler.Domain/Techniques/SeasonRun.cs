using Scheduler.Domain.Techniques.Care;
using Scheduler.Domain.Techniques.Conditions;

namespace Scheduler.Domain.Techniques;

/// <summary>One judged mode with its windows.</summary>
internal sealed record Judged(Judgement Judgement, IReadOnlyList<WorkWindow> Windows);

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
        Repotting, Strip, "tip-pinch", "early-clip", "flower-side-tips", "decandling", "leaf-thinning",
        "cut-back", "outline-trim"
    ];

    public static IEnumerable<Technique> Ordered(Craft craft) => craft.Techniques.OrderBy(technique =>
        Array.IndexOf(Order, technique.Id) is >= 0 and var place ? place : Order.Length);

    public static List<Judged> Of(TreeYear year)
    {
        var judged = new List<Judged>();
        foreach (var technique in Ordered(year.Craft))
        {
            foreach (var mode in technique.Modes)
            {
                if (CareAdvice.IsCare(technique))
                    continue;
                judged.Add(Of(technique, mode, year));
            }
        }
        return Apart(judged, year);
    }

    // A leaf strip and root work beyond the light kind never share a spring. Roots that are due go first.
    private static List<Judged> Apart(List<Judged> season, TreeYear year)
    {
        var strips = season.Exists(judged => judged.Judgement.Technique.Id == Strip && IsComing(judged));
        var roots = season.Exists(judged => IsRootWork(judged) && IsComing(judged));
        if (!strips || !roots)
            return season;
        var rootsFirst = RootWorkDue.IsDue(year);
        return season.ConvertAll(judged => (rootsFirst ? judged.Judgement.Technique.Id == Strip : IsRootWork(judged))
            ? new Judged(judged.Judgement with { Verdict = Verdict.NotAllowed, Reasons = [year.Because("strip-and-roots-apart")] }, [])
            : judged);
    }

    private static bool IsRootWork(Judged judged) => judged.Judgement.Technique.Id == Repotting && judged.Judgement.Mode.Id != "light";

    private static bool IsComing(Judged judged) => judged.Windows.Any(window => window.State != WindowState.Done);

    private static Judged Of(Technique technique, TechniqueMode mode, TreeYear year)
    {
        var judgement = Judge.Of(technique, mode, year);
        if (mode.IsStatement || judgement.Verdict is Verdict.NotAllowed or Verdict.Leave && (judgement.Visits.Count == 0 || IsOtherExtent(judgement)))
            return new Judged(judgement, []);
        var passes = Passes.Of(judgement);
        if (judgement.Visits.Count == 0 && passes.Count > 0 && judgement.Verdict is Verdict.DoNow or Verdict.Wait or Verdict.Ask)
            year.Plan(judgement.Key, [.. passes[0].Opens.Select(day => Math.Max(day, year.TodayDay))]);
        return new Judged(judgement, WindowWriter.Of(judgement, passes));
    }

    // Root work that was done belongs to the mode of its extent; the other modes have no window of it.
    private static bool IsOtherExtent(Judgement judgement) => judgement.Technique.Id == Repotting
        && judgement.Year.Log.RootWork(0) is { } extent && judgement.Mode.Id != Trees.Ids.Of(extent);
}
