using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;
using Scheduler.Service.Tests.Catalog;

namespace Scheduler.Service.Tests.Rules;

/// <summary>
/// What must hold on every day of the diary, worked out apart from the rules themselves. Numbers of days before the first
/// autumn frost, loads and gaps are common practice, no source.
/// </summary>
internal sealed class DiaryChecks(Func<LocalDate, LocalDate, double> heatCd, GrowthYear year)
{
    private const int CapDays = 42;
    private const int VisitDays = 10;
    private const double LeafJobGapCd = 200;
    private const int LastDaysWithoutReflush = 60;
    private static readonly string[] LeafJobs = ["leaf-thinning", "outer-leaf-removal", "partial-defoliation", "full-defoliation"];
    private static readonly HashSet<string> TipsAndLeaves =
    [
        .. LeafJobs, "tip-pinch", "early-clip", "cut-back", "flower-side-tips", "candle-pinch", "decandling", "conifer-tips",
        "bud-thinning", "needle-plucking", "pre-push-defoliation", "outline-trim"
    ];
    private static readonly Dictionary<string, int> LastDaysToFrost = new()
    {
        ["tip-pinch"] = 45, ["early-clip"] = 60, ["cut-back"] = 60, ["outer-leaf-removal"] = 45, ["leaf-thinning"] = 45,
        ["partial-defoliation"] = 75, ["full-defoliation"] = 90, ["decandling"] = 80, ["conifer-tips"] = 45, ["outline-trim/return-cut"] = 60,
        ["outline-trim"] = 45
    };

    public List<string> Violations { get; } = [];

    /// <summary>The answers of one day, before any work of the day.</summary>
    public void Day(Tree tree, LocalDate today, IReadOnlyList<TechniqueAdvice> advice, bool isWeak, double? daysToFrost)
    {
        var open = advice.SelectMany(one => Open(one)).ToList();
        var rootWork = open.Exists(one => one.Technique == "repotting" && one.Mode is "normal" or "hard");
        foreach (var one in open)
        {
            if (rootWork && Trees.Craft.Find(one.Technique)!.RootWork.Normal == RootWorkEffect.Bar)
                Say(today, tree, $"{one.Technique} is open beside root work");
            if (isWeak && TipsAndLeaves.Contains(one.Technique))
                Say(today, tree, $"{one.Technique} is open on a weak tree");
            if (tree.Placement != Placement.Indoors && daysToFrost is { } left
                && (LastDaysToFrost.TryGetValue($"{one.Technique}/{one.Mode}", out var least) || LastDaysToFrost.TryGetValue(one.Technique, out least))
                && left < (one.Technique == "partial-defoliation" && IsOneFlush(tree) ? LastDaysWithoutReflush : least) && left > 0)
                Say(today, tree, $"{one.Technique}/{one.Mode} is open {left:0} days before the first frost, its limit is {least}");
        }
        foreach (var same in open.Where(one => LeafJobs.Contains(one.Technique)).GroupBy(one => (one.Zone, one.Branch)))
        {
            if (same.Select(one => one.Technique).Distinct().Count() > 1)
                Say(today, tree, $"two leaf jobs at once: {string.Join(", ", same.Select(one => one.Technique))}");
        }
    }

    /// <summary>Work that follows the advice of its day, against the log before it.</summary>
    public void Work(Tree tree, WorkRecord work, IReadOnlyList<WorkRecord> before)
    {
        var season = before.Where(one => GrowthYear.Of(one.Date, year.Hemisphere) == year && one.Date < work.Date).ToList();
        Gaps(tree, work, season);
        Budget(tree, [.. season, work]);
        LeafArea(tree, work, season);
    }

    private void Gaps(Tree tree, WorkRecord work, List<WorkRecord> season)
    {
        var technique = Trees.Craft.Find(work.Technique)!;
        var mode = technique.Modes.FirstOrDefault(one => one.Id == work.Mode) ?? technique.Modes[0];
        foreach (var heat in mode.Gaps.Select(gap => gap.Until).Append(mode.Repeat?.Opens).OfType<HeatTrigger>().Where(heat => heat.From.StartsWith("work:", StringComparison.Ordinal)))
        {
            if (season.LastOrDefault(one => Fits(one, heat.From[5..].Split('/')) && Touch(one, work)) is { } last && heatCd(last.Date, work.Date) < heat.MinCd
                && !(last.Technique == work.Technique && IsSession(mode, work, season)))
                Say(work.Date, tree, $"{work.Technique} {heatCd(last.Date, work.Date):0} degree-days after {last.Technique}, needs {heat.MinCd}");
        }
        if (LeafJobs.Contains(work.Technique) && season.LastOrDefault(one => LeafJobs.Contains(one.Technique) && Touch(one, work)) is { } leaves
            && heatCd(leaves.Date, work.Date) < LeafJobGapCd)
            Say(work.Date, tree, $"{work.Technique} {heatCd(leaves.Date, work.Date):0} degree-days after {leaves.Technique}");
        var rest = tree.Health == Health.Vigorous ? 42 : 56;
        if (IsBend(work) && season.Exists(one => IsRoots(one) && Period.DaysBetween(one.Date, work.Date) < rest)
            || IsRoots(work) && season.Exists(one => IsBend(one) && Period.DaysBetween(one.Date, work.Date) < rest))
            Say(work.Date, tree, "bends and root work too close together");
    }

    // Shoots come one after the other: the next session of the same visit, as long as it is one of the sessions that the work may take.
    private static bool IsSession(TechniqueMode mode, WorkRecord work, List<WorkRecord> season)
    {
        var (sessions, day) = (1, work.Date);
        foreach (var one in season.Where(one => one.Technique == work.Technique && one.Mode == work.Mode).Reverse())
        {
            if (Period.DaysBetween(one.Date, day) > VisitDays)
                break;
            (sessions, day) = (sessions + (one.Date < day ? 1 : 0), one.Date);
        }
        return sessions <= (mode.Effort.Sessions?.High ?? 1);
    }

    private void Budget(Tree tree, List<WorkRecord> season)
    {
        var used = season.GroupBy(one => one.Technique).ToDictionary(same => same.Key, same => same.Max(one => Load(one, same)));
        // Bends beside root work have a rest of their own, big cuts and root work in one spring count as one.
        if (used.ContainsKey("repotting"))
            used.Remove("wiring");
        if (used.ContainsKey("repotting") && tree.Stage <= TreeStage.BranchBuilding)
            used.Remove("structural-pruning");
        int heavy = used.Values.Count(load => load == 3), medium = used.Values.Count(load => load == 2);
        if (heavy > 1 || medium > (heavy == 0 ? 2 : tree.Health == Health.Vigorous ? 1 : 0))
            Say(season[^1].Date, tree, $"over the season's budget: {string.Join(", ", used.Where(one => one.Value > 1).Select(one => $"{one.Key} {one.Value}"))}");
    }

    private void LeafArea(Tree tree, WorkRecord work, List<WorkRecord> season)
    {
        if (work.Technique == "full-defoliation" || Usual(work) == 0)
            return;
        var taken = season.Append(work).Where(one => Period.DaysBetween(one.Date, work.Date) < CapDays)
            .GroupBy(one => one.Technique).Sum(same => Math.Min(Usual(same.First()), same.Sum(one => one.LivingTopPercent ?? Usual(one) * (IsPart(one) ? 0.3 : 1))));
        var cap = tree.Health == Health.Vigorous ? 60 : 40;
        if (taken > cap + 0.01)
            Say(work.Date, tree, $"{taken:0} % of the leaves in six weeks with {work.Technique}");
    }

    private static double Usual(WorkRecord work) => Trees.Craft.Find(work.Technique)!.Load.LeafAreaPercent;

    private static int Load(WorkRecord work, IEnumerable<WorkRecord> same)
    {
        var technique = Trees.Craft.Find(work.Technique)!;
        var load = technique.Modes.FirstOrDefault(mode => mode.Id == work.Mode)?.Load ?? technique.Load;
        return load.Light is { } light && work.Extent == Extent.Light ? light : IsPart(work) && same.Select(one => (one.CrownZone, one.Branch)).Distinct().Count() == 1 ? load.Part : load.Whole;
    }

    // What pushes no second flush has none to harden, so its leaves may go later.
    private static bool IsOneFlush(Tree tree) => ShippedCatalog.Content.Species[tree.SpeciesId].Group == "DSF";

    private static IEnumerable<(string Technique, string? Mode, CrownZone? Zone, string? Branch)> Open(TechniqueAdvice advice)
    {
        if (advice.Verdict != Verdict.DoNow)
            return [];
        var parts = advice.Parts.Where(part => part.Verdict == Verdict.DoNow).Select(part => (advice.Technique, part.Mode, part.CrownZone, part.Branch)).ToList();
        return parts.Count > 0 ? parts : [(advice.Technique, null, null, null)];
    }

    private static bool Fits(WorkRecord work, string[] key) => work.Technique == key[0] && (key.Length == 1 || work.Mode == key[1]);

    private static bool IsPart(WorkRecord work) => work.CrownZone is not null || work.Branch is not null;

    private static bool Touch(WorkRecord one, WorkRecord other) => !IsPart(one) || !IsPart(other) || one.CrownZone == other.CrownZone && one.Branch == other.Branch;

    private static bool IsBend(WorkRecord work) => work is { Technique: "wiring", Mode: "heavy-bend" };

    private static bool IsRoots(WorkRecord work) => work is { Technique: "repotting", Extent: not Extent.Light };

    private void Say(LocalDate today, Tree tree, string what) => Violations.Add($"{today:uuuu-MM-dd} {tree.Name}: {what}");
}
