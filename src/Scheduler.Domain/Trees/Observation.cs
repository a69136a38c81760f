using NodaTime;

namespace Scheduler.Domain.Trees;

/// <summary>
/// What the owner saw on one day, on the whole tree or on a part of it. Every field but the date is optional;
/// a field left out means "not looked at", never "no".
/// </summary>
public record Observation
{
    public required Guid Id { get; init; }
    public required LocalDate Date { get; init; }
    /// <summary>Growth stage as a BBCH code, 0-99. A phase id is stored as its code.</summary>
    public int? Bbch { get; init; }
    /// <summary>The phase id the owner used, if one was: two phases may share a code.</summary>
    public string? Phase { get; init; }
    public CrownZone? CrownZone { get; init; }
    public string? Branch { get; init; }
    /// <summary>First or second flush of the growth year.</summary>
    public int? Flush { get; init; }
    /// <summary>Single leaves unfolded on the shoots looked at (opposite species: two a pair).</summary>
    public int? LeafCount { get; init; }
    /// <summary>0 trunk line visible from outside, 1 partly hidden, 2 hidden, 3 hidden and the inside dying.</summary>
    public int? Density { get; init; }
    public bool? Hardened { get; init; }
    public bool? WireTight { get; init; }
    /// <summary><c>dry</c>, <c>moist</c> or <c>wet</c>.</summary>
    public string? Soil { get; init; }
    public string? Strength { get; init; }
    public string? Organ { get; init; }
    /// <summary>Pine candles: C1 lengthening, C2 needle tips showing, C3 needles standing off, C4 hardened.</summary>
    public string? Candle { get; init; }
    public bool? Soft { get; init; }
    public bool? BaseFirm { get; init; }
    public bool? Firm { get; init; }
    public double? ShootCm { get; init; }
    public double? InternodeCm { get; init; }
    public double? PastOutlineCm { get; init; }
    public bool? LeavesFullSize { get; init; }
    public bool? TipsMoving { get; init; }
    public bool? Growing { get; init; }
    public bool? SpringGrowthFirm { get; init; }
    public double? ShareOfShootsPercent { get; init; }
    public int? SomeAtBbch { get; init; }
    public string? FlowerBuds { get; init; }
    public bool? FlowerBudsSeen { get; init; }
    public double? FlowersPastPercent { get; init; }
    public bool? FruitSet { get; init; }
    public string? BareAlongLength { get; init; }
    public bool? LiveUnderScratch { get; init; }
    public bool? CapsOff { get; init; }
    public int? CandlesPerPoint { get; init; }
    public int? ShootsPerPoint { get; init; }
    public bool? DeadTwigs { get; init; }
    public bool? WireBiting { get; init; }
    public bool? PestSigns { get; init; }
    /// <summary>Frost killed young leaves of this spring's first flush.</summary>
    public bool? FrostedLeaves { get; init; }
    /// <summary>Water stood on the soil for more than 30 seconds.</summary>
    public bool? WaterStands { get; init; }
    /// <summary>Roots lift the root ball out of the pot.</summary>
    public bool? RootsLift { get; init; }
    public string? Notes { get; init; }
}
