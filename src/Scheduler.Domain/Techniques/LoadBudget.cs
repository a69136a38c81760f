using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// How much heavy work a tree bears in one growth year. Vigorous: one heavy and one medium, or two medium. Sound: one
/// heavy or two medium. Light work is free. All visits of one technique in a growth year count once.
/// </summary>
internal static class LoadBudget
{
    private const int Medium = 2;
    private const int Heavy = 3;
    private const double HeavyLeafPercent = 50;
    private const string Repotting = "repotting";
    /// <summary>Share of the living top from which a cut is heavy work [%].</summary>
    public const double HeavyPruningPercent = 15;

    public static WorkLoad LoadOf(Technique technique, TechniqueMode mode) => mode.Load ?? technique.Load;

    /// <summary>
    /// What a mode takes out of the tree on the part that is asked: the part's share while no other part of the tree is
    /// worked the same way this growth year, else that of the whole tree.
    /// </summary>
    public static int LoadOn(TreeYear part, Technique technique, TechniqueMode mode, bool isAlone)
    {
        var load = LoadOf(technique, mode);
        if (load.HeavyFor.Any(trees => trees.Fits(part)))
            return Heavy;
        return part.Part.IsWhole || !isAlone || part.Whole.Log.ThisYear.Any(work => work.Technique == technique.Id && IsElsewhere(work, part.Part))
            ? load.Whole
            : load.Part;
    }

    public static bool Fits(Technique technique, int load, TreeYear year) => Fits(technique, load, year, new Dictionary<string, int>());

    /// <param name="technique">What is asked for.</param>
    /// <param name="load">Its load.</param>
    /// <param name="year">The tree.</param>
    /// <param name="doing">Loads of what is to be done today, by technique.</param>
    public static bool Fits(Technique technique, int load, TreeYear year, IReadOnlyDictionary<string, int> doing)
    {
        if (load < Medium)
            return true;
        if (doing.Count == 0 && year.Whole.Log.ThisYear.Count == 0)
            return year.Health >= Health.Sound;
        var used = doing.Where(job => job.Key != technique.Id && !IsPair(job.Key, technique.Id, year)).ToDictionary();
        // The budget is the tree's, whichever part was worked. Two parts worked alike are as much as the whole.
        var parts = new Dictionary<string, (CrownZone?, string?)>();
        foreach (var work in year.Whole.Log.ThisYear)
        {
            if (work.Technique == technique.Id || IsPair(work.Technique, technique.Id, year))
                continue;
            var isSecondPart = !parts.TryAdd(work.Technique, (work.CrownZone, work.Branch)) && parts[work.Technique] != (work.CrownZone, work.Branch);
            used[work.Technique] = Math.Max(used.GetValueOrDefault(work.Technique), LoadOf(work, year, isSecondPart));
        }
        if (year.MayCutAndRepot && used.GetValueOrDefault(Repotting) == Heavy && used.GetValueOrDefault("structural-pruning") == Heavy)
            used.Remove(Repotting);
        var heavy = used.Values.Count(value => value == Heavy) + (load == Heavy ? 1 : 0);
        var medium = used.Values.Count(value => value == Medium) + (load == Medium ? 1 : 0);
        return year.Health switch
        {
            Health.Vigorous => heavy <= 1 && (medium <= 1 || medium == 2 && heavy == 0),
            Health.Sound => heavy == 0 ? medium <= 2 : heavy == 1 && medium == 0,
            _ => false
        };
    }

    // Bends and root work have their own rest from each other. Big cuts and root work in one spring count as one heavy
    // job where both are allowed together.
    private static bool IsPair(string one, string other, TreeYear year) =>
        (one, other) is ("wiring", Repotting) or (Repotting, "wiring")
        || (one, other) is ("structural-pruning", Repotting) or (Repotting, "structural-pruning") && year.MayCutAndRepot;

    private static bool IsElsewhere(WorkRecord work, TreePart part) => work.Branch is { } branch
        ? branch != part.Branch?.Id
        : part.Branch is not null || work.CrownZone is null || work.CrownZone != part.CrownZone;

    private static int LoadOf(WorkRecord work, TreeYear year, bool isSecondPart)
    {
        var technique = year.Craft.Find(work.Technique);
        var load = technique?.Modes.FirstOrDefault(mode => mode.Id == work.Mode)?.Load ?? technique?.Load;
        if (load is null)
            return 0;
        if (load.Light is { } light && WorkLog.ExtentOf(work) == Extent.Light)
            return light;
        if (load.HeavyFor.Any(trees => trees.Fits(year)))
            return Heavy;
        if (work.LivingTopPercent > (load.LeafAreaPercent > 0 ? HeavyLeafPercent : HeavyPruningPercent))
            return Heavy;
        return isSecondPart || work.CrownZone is null && work.Branch is null ? load.Whole : load.Part;
    }
}
