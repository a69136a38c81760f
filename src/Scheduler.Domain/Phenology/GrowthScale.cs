namespace Scheduler.Domain.Phenology;

/// <summary>
/// A species' growth points on the heat axis: which sum each BBCH code needs. Leaf and flower codes up to first leaf
/// count from the start of the heat year and depend on chill; later shoot codes count from the first unfolded leaf.
/// </summary>
public sealed class GrowthScale
{
    // Where a species has no first-leaf heat of its own: about a warm week after bud break (estimate).
    private const double LeafAfterBudBreakCd = 40;
    // Guards against catalog figures that would end extension before it began.
    private const double ShortestExtensionCd = 60;
    private readonly Species _species;
    private readonly GrowthRules _rules;
    private readonly double? _ownLeafStepCd;

    /// <param name="species">The plant kind.</param>
    /// <param name="rules">How points between its figures are placed.</param>
    /// <param name="ownLeafStepCd">One tree's own heat from leaf to leaf, where its leaves were counted (<see cref="LeafTrack"/>).</param>
    public GrowthScale(Species species, GrowthRules rules, double? ownLeafStepCd = null)
    {
        ArgumentNullException.ThrowIfNull(species);
        ArgumentNullException.ThrowIfNull(rules);
        _species = species;
        _rules = rules;
        _ownLeafStepCd = ownLeafStepCd;
    }

    public Species Species => _species;
    public GrowthRules Rules => _rules;
    private ThermalTimes Times => _species.ThermalTimes;

    /// <summary>Codes this scale can place, in order of growth.</summary>
    public static readonly IReadOnlyList<int> Codes =
        [1, 3, 7, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 31, 33, 35, 37, 39, 55, 60, 61, 65, 69, 91, 92, 93, 95, 97];

    /// <summary>Flower codes, from the swelling flower bud to the young fruit (50 to 79).</summary>
    public static bool IsFlowerCode(int bbch) => bbch is >= 50 and < 80;

    /// <summary>
    /// The placeable code that a number between two of them counts as: the lower one of its own track. Null where there is
    /// none: fruit (80 to 89), flower buds not yet visible (50 to 54), and what is no code at all.
    /// </summary>
    public static int? Named(int bbch)
    {
        if (bbch == 0)
            return 0;
        int? lower = null;
        foreach (var code in Codes)
        {
            if (code <= bbch && bbch <= 99 && TrackOf(code) == TrackOf(bbch))
                lower = code;
        }
        return lower;
    }

    /// <summary>Codes of one track follow each other; tracks run side by side: 0 leaf and shoot, 5 flower, 8 fruit, 9 leaf color and fall.</summary>
    internal static int TrackOf(int bbch) => bbch switch
    {
        >= 92 => 9,
        >= 80 and < 90 => 8,
        _ when IsFlowerCode(bbch) => 5,
        _ => 0
    };

    /// <summary>Heat from the start of the heat year under full chill [C*d]; null for codes counted otherwise or absent.</summary>
    public double? FromHeatStartCd(int bbch) => bbch switch
    {
        1 => (Times.BudSwellCd?.Value ?? Times.BudBreakCd?.Value / 2) * _rules.SwellBeginsShare.Value,
        3 => Times.BudSwellCd?.Value ?? Times.BudBreakCd?.Value / 2,
        7 => Times.BudBreakCd?.Value,
        9 => Between(_rules.LeafTipsShare.Value),
        10 => Between(_rules.LeavesSeparateShare.Value),
        11 => FirstLeafCd,
        55 => Times.FirstBloomCd is { } bloom ? Math.Max(bloom.Value / 2, bloom.Value - _rules.FlowerBudsBeforeBloomCd.Value) : null,
        60 or 61 => Times.FirstBloomCd?.Value,
        65 => Times.FirstBloomCd?.Value + _rules.FullBloomAfterCd.Value,
        69 => Times.FirstBloomCd?.Value + _rules.PetalsDownAfterCd.Value,
        _ => null
    };

    /// <summary>Heat after the first unfolded leaf (BBCH 11) [C*d]; null for codes counted otherwise or absent.</summary>
    public double? AfterFirstLeafCd(int bbch) => bbch switch
    {
        >= 12 and <= 19 => FirstLeafCd is null ? null : (bbch - 11) * LeafStepCd,
        31 or 33 or 35 or 37 => ShootCd((bbch - 30) / 10d),
        39 => ExtensionCd,
        91 => HardenedCd,
        _ => null
    };

    /// <summary>Heat after the first unfolded leaf until so many single leaves are out on a shoot [C*d].</summary>
    public double? LeavesCd(int singleLeaves)
    {
        if (FirstLeafCd is null)
            return null;
        var steps = _species.HasOppositeLeaves ? (singleLeaves + 1) / 2 : singleLeaves;
        return Math.Max(0, steps - 1) * LeafStepCd;
    }

    /// <summary>Heat from one leaf (opposite: pair) to the next [C*d].</summary>
    public double LeafStepCd => _ownLeafStepCd ?? (Times.PhyllochronCd ?? _rules.PreformedLeafCd).Value;

    /// <summary>Length of the first flush against heat since bud break; null where no spring is known. Tenths are codes 31 to 39.</summary>
    public ShootCurve? Shoots => ExtensionCd is { } extension ? new ShootCurve(LeafSinceBudBreakCd + extension, _rules.ShootHalfLengthShare.Value) : null;

    private double LeafSinceBudBreakCd => FirstLeafCd - Times.BudBreakCd?.Value ?? LeafAfterBudBreakCd;

    private double? ShootCd(double share) => Shoots is { } shoots ? Math.Max(0, shoots.HeatCd(share) - LeafSinceBudBreakCd) : null;

    private double? FirstLeafCd => Times.FirstLeafCd?.Value ?? Times.BudBreakCd?.Value + LeafAfterBudBreakCd;

    private double? ExtensionCd => FirstLeafCd is not { } leaf ? null
        : Math.Max((Times.NeedlesOutCd ?? Times.ExtensionEndCd)?.Value - leaf ?? HardenedCd!.Value, ShortestExtensionCd);

    // The first flush hardens so long after its first leaves; a conifer's not while its shoots still lengthen. Where long shoots
    // keep growing (birch, larch), 91 is the flush the tree began with, and comes before 39.
    private double? HardenedCd => FirstLeafCd is not { } leaf ? null
        : Math.Max(_rules.HardenedAfterLeavesCd.Value - (leaf - Between(_rules.LeavesSeparateShare.Value) ?? 0),
            _species.IsConifer ? Times.ExtensionEndCd?.Value - leaf ?? 0 : 0);

    private double? Between(double share) => Times.BudBreakCd is { } start && FirstLeafCd is { } leaf
        ? start.Value + share * (leaf - start.Value)
        : null;
}
