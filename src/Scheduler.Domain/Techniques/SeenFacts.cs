using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// What the owner saw on one tree, or on a part of it, in one growth year, the newest word on each fact. Null: not
/// looked at. What was seen on a branch counts before what was seen in its zone, that before what was said of the whole
/// tree. Phase and density that nobody looked at on the part are those of the rest of the tree.
/// </summary>
public sealed class SeenFacts
{
    // Half the shoots of a part must have come so far before the part has.
    private const double HalfPercent = 50;
    private const string Weak = "weak";
    private readonly List<Observation> _all;
    private readonly List<Observation> _newestFirst;
    // The nearest first: branch, zone, tree; the last holds what was seen elsewhere on the tree.
    private readonly List<Observation>[] _tiers;
    private readonly LocalDate _today;
    private readonly int _freshDays;

    public SeenFacts(IEnumerable<Observation> observations, GrowthYear year, LocalDate today, int freshDays)
        : this(Until(observations, today), year, today, freshDays, TreePart.Whole)
    {
    }

    private SeenFacts(List<Observation> all, GrowthYear year, LocalDate today, int freshDays, TreePart part)
    {
        _all = all;
        _today = today;
        _freshDays = freshDays;
        var season = all.Where(seen => seen.Date >= year.Turn && seen.Date < year.Next.Turn).ToList();
        var tiers = Tiers(season, part);
        _tiers = tiers;
        _newestFirst = part.IsWhole ? season : [.. tiers[..^1].SelectMany(tier => tier)];
        LeafPhases = Newest(seen => seen.Bbch is { } code && !GrowthScale.IsFlowerCode(code), tiers);
        FlowerPhases = Newest(seen => seen.Bbch is { } code && GrowthScale.IsFlowerCode(code), tiers);
        LeafCounts = Newest(seen => seen.LeafCount is not null, tiers.AsSpan(0, Math.Max(1, tiers.Length - 1)));
        var told = part.Branch?.Density;
        Density = First(_newestFirst, seen => seen.Density) ?? told ?? First(season, seen => seen.Density);
        LastDensity = Density ?? First(all.Where(seen => part.Includes(seen.CrownZone, seen.Branch)), seen => seen.Density) ?? First(all, seen => seen.Density);
        // A soft base is one that is not firm. What is firm stays so, what is not may be tomorrow.
        Soft = Fresh(_newestFirst, seen => seen.Soft ?? !seen.BaseFirm);
        BaseFirm = First(_newestFirst, seen => seen.BaseFirm) == true ? true : Fresh(_newestFirst, seen => seen.BaseFirm ?? (seen.Soft == true ? false : null));
        LeavesFullSize = First(_newestFirst, seen => seen.LeavesFullSize) ?? First(season, seen => seen.LeavesFullSize);
        ShootCm = First(_newestFirst, seen => seen.ShootCm);
        InternodeCm = First(_newestFirst, seen => seen.InternodeCm);
        Candle = FirstText(_newestFirst, seen => seen.Candle) ?? FirstText(season, seen => seen.Candle);
        FlowerBuds = FirstText(_newestFirst, seen => seen.FlowerBuds);
        FlowerBudsSeen = First(_newestFirst, seen => seen.FlowerBudsSeen);
        LiveUnderScratch = First(_newestFirst, seen => seen.LiveUnderScratch);
        PestSigns = First(all, seen => seen.PestSigns) == true;
        LastPestLook = all.Find(seen => seen.PestSigns is not null)?.Date;
        FrostedLeaves = season.Exists(seen => seen.FrostedLeaves == true);
        DrySoil = season.Exists(seen => seen.Date == today && seen.Soil == "dry");
        var own = tiers.Length > 1 ? tiers[0] : [];
        WeakOnly = own.Exists(seen => seen.Strength == Weak) && own.TrueForAll(seen => seen.Strength == Weak);
    }

    /// <summary>The same as far as it speaks of one part.</summary>
    public SeenFacts For(TreePart part, GrowthYear year)
    {
        ArgumentNullException.ThrowIfNull(part);
        return part.IsWhole ? this : new SeenFacts(_all, year, _today, _freshDays, part);
    }

    /// <summary>Newest leaf, shoot and rest codes, one for each part of the crown that was looked at.</summary>
    public IReadOnlyList<Observation> LeafPhases { get; }
    public IReadOnlyList<Observation> FlowerPhases { get; }
    public IReadOnlyList<Observation> LeafCounts { get; }
    /// <summary>Density scored this growth year.</summary>
    public int? Density { get; }
    public LocalDate? DensityOn => _newestFirst.Find(seen => seen.Density is not null)?.Date;
    /// <summary>Density whenever it was last scored.</summary>
    public int? LastDensity { get; }
    public bool? Soft { get; }
    public bool? BaseFirm { get; }
    public bool? LeavesFullSize { get; }
    public double? ShootCm { get; }
    public double? InternodeCm { get; }
    public double? PastOutlineCm => First(_newestFirst, seen => seen.PastOutlineCm);
    public bool? SpringGrowthFirm => First(_newestFirst, seen => seen.SpringGrowthFirm);
    /// <summary>New tips move; only a fresh look counts.</summary>
    public bool? TipsMoving => Fresh(_newestFirst, seen => seen.TipsMoving);
    public bool? CandleFresh => Fresh(_newestFirst, seen => seen.Candle is null ? (bool?)null : true);
    public string? Candle { get; }
    public string? FlowerBuds { get; }
    public bool? FlowerBudsSeen { get; }
    public bool? LiveUnderScratch { get; }
    public double? FlowersPastPercent => First(_newestFirst, seen => seen.FlowersPastPercent);
    public bool PestSigns { get; }
    /// <summary>Frost took young leaves this growth year.</summary>
    public bool FrostedLeaves { get; }
    /// <summary>All that was seen of this part were weak shoots.</summary>
    public bool WeakOnly { get; }
    /// <summary>The last day the owner said whether there were signs of pest or disease.</summary>
    public LocalDate? LastPestLook { get; }
    public bool DrySoil { get; }

    /// <summary>Whether water stood on the soil or roots lift the ball, at the newest look from a day on; null: nobody looked.</summary>
    public bool? RootsNeedRoom(LocalDate from) => First<bool>(_all.Where(seen => seen.Date >= from),
        seen => seen.WaterStands is null && seen.RootsLift is null ? null : seen.WaterStands == true || seen.RootsLift == true);

    /// <summary>Hardened as seen: once true it stays true; false only while the look is fresh.</summary>
    public bool? Hardened
    {
        get
        {
            foreach (var tier in _tiers)
            {
                if (tier.Exists(IsHardened))
                    return true;
                if (Fresh(tier, seen => seen.Hardened) is { } hardened)
                    return hardened;
            }
            return null;
        }
    }

    /// <summary>The day the flush was first seen hardened.</summary>
    public LocalDate? HardenedOn => Array.Find(_tiers, tier => tier.Exists(IsHardened))?.FindLast(IsHardened)?.Date;

    public bool IsToday(Observation seen) => seen.Date == _today;

    /// <summary>The day an exact code was first noted.</summary>
    public LocalDate? FirstSeen(int bbch) => Array.Find(_tiers, tier => tier.Exists(seen => seen.Bbch == bbch))?.FindLast(seen => seen.Bbch == bbch)?.Date;

    /// <summary>The newest word on a fact of this growth year.</summary>
    public T? Latest<T>(Func<Observation, T?> fact) where T : struct => First(_newestFirst, fact);

    /// <summary>The last day of this growth year on which something was seen.</summary>
    public LocalDate? LastOn(Func<Observation, bool> test) => _newestFirst.Find(seen => test(seen))?.Date;

    public bool Any(Func<Observation, bool> test) => _newestFirst.Any(test);

    /// <summary>
    /// A fresh look found shoots, weak ones apart, at the leaf code or beyond, however few. The nearest part that was
    /// looked at speaks; what was seen elsewhere on the tree says nothing of this part.
    /// </summary>
    public bool IsFirstShootsAt(int bbch)
    {
        var fresh = _newestFirst.FindAll(seen => seen.Date >= _today.PlusDays(-_freshDays) && seen.Strength != Weak && LeafCode(seen) is not null);
        return Array.Find(_tiers, tier => fresh.Exists(tier.Contains)) is { } nearest && fresh.Exists(seen => LeafCode(seen) >= bbch && nearest.Contains(seen));
    }

    private static int? LeafCode(Observation seen) => (seen.SomeAtBbch ?? seen.Bbch) is { } code && GrowthScale.TrackOf(code) == 0 ? code : null;

    private static List<Observation> Until(IEnumerable<Observation> observations, LocalDate today) =>
        [.. observations.Where(seen => seen.Date <= today).OrderByDescending(seen => seen.Date).Select(OfHalfTheShoots)];

    // A code that fewer than half of the shoots have reached is not yet the part's.
    private static Observation OfHalfTheShoots(Observation seen) =>
        seen.Bbch is > 0 && seen.ShareOfShootsPercent < HalfPercent ? seen with { Bbch = seen.Bbch - 1, SomeAtBbch = seen.SomeAtBbch ?? seen.Bbch } : seen;

    private static List<Observation>[] Tiers(List<Observation> season, TreePart part)
    {
        if (part.IsWhole)
            return [season];
        List<Observation> branch = [], zone = [], tree = [], elsewhere = [];
        foreach (var seen in season)
        {
            var tier = seen.Branch is { } id ? id == part.Branch?.Id ? branch : elsewhere
                : seen.CrownZone is { } crown ? crown == part.CrownZone ? zone : elsewhere : tree;
            tier.Add(seen);
        }
        return part.Branch is not null ? [branch, zone, tree, elsewhere] : [zone, tree, elsewhere];
    }

    private static bool IsHardened(Observation seen) => seen.Hardened == true || seen.Candle == "C4";

    private static T? First<T>(IEnumerable<Observation> newestFirst, Func<Observation, T?> fact) where T : struct =>
        newestFirst.Select(fact).FirstOrDefault(value => value is not null);

    private static string? FirstText(IEnumerable<Observation> newestFirst, Func<Observation, string?> fact) =>
        newestFirst.Select(fact).FirstOrDefault(value => value is not null);

    private T? Fresh<T>(IEnumerable<Observation> newestFirst, Func<Observation, T?> fact) where T : struct =>
        First(newestFirst.Where(seen => seen.Date >= _today.PlusDays(-_freshDays)), fact);

    // Of the nearest tier that knows. Weak shoots are left alone, so they speak only where nobody looked at stronger ones.
    private static List<Observation> Newest(Func<Observation, bool> has, ReadOnlySpan<List<Observation>> tiers)
    {
        foreach (var tier in tiers)
        {
            var newest = new Dictionary<(CrownZone?, string?, string?, string?), Observation>();
            foreach (var seen in tier)
            {
                if (has(seen))
                    newest.TryAdd((seen.CrownZone, seen.Branch, seen.Organ, seen.Strength), seen);
            }
            if (newest.Count == 0)
                continue;
            var strong = newest.Values.Where(seen => seen.Strength != Weak).ToList();
            return strong.Count > 0 ? strong : [.. newest.Values];
        }
        return [];
    }
}
