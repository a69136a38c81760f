using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// What the owner saw on one tree in one growth year, the newest word on each fact. Null: not looked at.
/// </summary>
public sealed class SeenFacts
{
    private readonly List<Observation> _newestFirst;
    private readonly LocalDate _today;
    private readonly int _freshDays;

    public SeenFacts(IEnumerable<Observation> observations, GrowthYear year, LocalDate today, int freshDays)
    {
        _today = today;
        _freshDays = freshDays;
        var all = observations.Where(seen => seen.Date <= today).OrderByDescending(seen => seen.Date).ToList();
        _newestFirst = [.. all.Where(seen => seen.Date >= year.Turn && seen.Date < year.Next.Turn)];
        LeafPhases = Newest(seen => seen.Bbch is { } code && !GrowthScale.IsFlowerCode(code));
        FlowerPhases = Newest(seen => seen.Bbch is { } code && GrowthScale.IsFlowerCode(code));
        LeafCounts = Newest(seen => seen.LeafCount is not null);
        Density = Last(seen => seen.Density);
        LastDensity = all.Select(seen => seen.Density).FirstOrDefault(density => density is not null);
        Soft = Fresh(seen => seen.Soft);
        BaseFirm = Last(seen => seen.BaseFirm);
        LeavesFullSize = Last(seen => seen.LeavesFullSize);
        ShootCm = Last(seen => seen.ShootCm);
        InternodeCm = Last(seen => seen.InternodeCm);
        Candle = _newestFirst.Select(seen => seen.Candle).FirstOrDefault(candle => candle is not null);
        FlowerBuds = _newestFirst.Select(seen => seen.FlowerBuds).FirstOrDefault(buds => buds is not null);
        FlowerBudsSeen = Last(seen => seen.FlowerBudsSeen);
        LiveUnderScratch = Last(seen => seen.LiveUnderScratch);
        PestSigns = all.Select(seen => seen.PestSigns).FirstOrDefault(signs => signs is not null) == true;
        LastPestLook = all.Find(seen => seen.PestSigns is not null)?.Date;
        DrySoil = _newestFirst.Any(seen => seen.Date == today && seen.Soil == "dry");
    }

    /// <summary>Newest leaf, shoot and rest codes, one for each part of the crown that was looked at.</summary>
    public IReadOnlyList<Observation> LeafPhases { get; }
    public IReadOnlyList<Observation> FlowerPhases { get; }
    public IReadOnlyList<Observation> LeafCounts { get; }
    /// <summary>Density scored this growth year.</summary>
    public int? Density { get; }
    /// <summary>Density whenever it was last scored.</summary>
    public int? LastDensity { get; }
    public bool? Soft { get; }
    public bool? BaseFirm { get; }
    public bool? LeavesFullSize { get; }
    public double? ShootCm { get; }
    public double? InternodeCm { get; }
    public string? Candle { get; }
    public string? FlowerBuds { get; }
    public bool? FlowerBudsSeen { get; }
    public bool? LiveUnderScratch { get; }
    public bool PestSigns { get; }
    /// <summary>The last day the owner said whether there were signs of pest or disease.</summary>
    public LocalDate? LastPestLook { get; }
    public bool DrySoil { get; }

    /// <summary>Hardened as seen: once true it stays true; false only while the look is fresh.</summary>
    public bool? Hardened
    {
        get
        {
            if (_newestFirst.Any(seen => seen.Hardened == true || seen.Candle == "C4"))
                return true;
            return Fresh(seen => seen.Hardened);
        }
    }

    /// <summary>The day the flush was first seen hardened.</summary>
    public LocalDate? HardenedOn => _newestFirst.LastOrDefault(seen => seen.Hardened == true || seen.Candle == "C4")?.Date;

    public bool IsToday(Observation seen) => seen.Date == _today;

    /// <summary>The day an exact code was first noted.</summary>
    public LocalDate? FirstSeen(int bbch) => _newestFirst.LastOrDefault(seen => seen.Bbch == bbch)?.Date;

    public bool Any(Func<Observation, bool> test) => _newestFirst.Any(test);

    private T? Last<T>(Func<Observation, T?> fact) where T : struct => _newestFirst.Select(fact).FirstOrDefault(value => value is not null);

    private T? Fresh<T>(Func<Observation, T?> fact) where T : struct =>
        _newestFirst.Where(seen => seen.Date >= _today.PlusDays(-_freshDays)).Select(fact).FirstOrDefault(value => value is not null);

    private List<Observation> Newest(Func<Observation, bool> has)
    {
        var newest = new Dictionary<(CrownZone?, string?, string?), Observation>();
        foreach (var seen in _newestFirst.Where(has))
            newest.TryAdd((seen.CrownZone, seen.Branch, seen.Organ), seen);
        return [.. newest.Values];
    }
}
