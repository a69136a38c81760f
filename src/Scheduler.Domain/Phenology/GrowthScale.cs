namespace Scheduler.Domain.Phenology;

/// <summary>
/// A species' growth points on the heat axis: which sum each BBCH code needs. Leaf and flower codes up to first leaf
/// count from the start of the heat year and depend on chill; later shoot codes count from the first unfolded leaf.
/// </summary>
public sealed class GrowthScale
{
    private readonly Species _species;
    private readonly GrowthRules _rules;

    public GrowthScale(Species species, GrowthRules rules)
    {
        ArgumentNullException.ThrowIfNull(species);
        ArgumentNullException.ThrowIfNull(rules);
        _species = species;
        _rules = rules;
    }

    public Species Species => _species;
    public GrowthRules Rules => _rules;
    private ThermalTimes Times => _species.ThermalTimes;

    /// <summary>Codes this scale can place, in order of growth.</summary>
    public static readonly IReadOnlyList<int> Codes =
        [1, 3, 7, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 31, 33, 35, 37, 39, 55, 60, 61, 65, 69, 91, 93, 95, 97];

    public static bool IsFlowerCode(int bbch) => bbch is >= 51 and < 80;

    /// <summary>The named code that a number between two codes counts as: the lower one of its own track.</summary>
    public static int? Named(int bbch)
    {
        var lower = Codes.Where(code => code <= bbch && code / 10 * 10 >= bbch / 10 * 10 - (bbch < 20 ? 10 : 0)).Cast<int?>().LastOrDefault();
        return bbch == 0 ? 0 : lower;
    }

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
        31 => ExtensionCd * 0.1,
        33 => ExtensionCd * 0.3,
        35 => ExtensionCd * 0.5,
        37 => ExtensionCd * 0.7,
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
    public double LeafStepCd => (Times.PhyllochronCd ?? _rules.PreformedLeafCd).Value;

    private double? FirstLeafCd => Times.FirstLeafCd?.Value ?? (Times.BudBreakCd?.Value + 40);

    private double? ExtensionCd => FirstLeafCd is not { } leaf ? null
        : Times.NeedlesOutCd is { } needles ? Math.Max(needles.Value - leaf, 60)
        : Math.Max((Times.ExtensionEndCd?.Value ?? leaf + HardenedCd!.Value) - leaf, 60);

    private double? HardenedCd => FirstLeafCd is not { } leaf ? null
        : Math.Max(_rules.HardenedAfterLeavesCd.Value - (leaf - Between(_rules.LeavesSeparateShare.Value) ?? 0),
            _species.IsConifer && Times.ExtensionEndCd is { } end ? end.Value - leaf : 0);

    private double? Between(double share) => Times.BudBreakCd is { } start && FirstLeafCd is { } leaf
        ? start.Value + share * (leaf - start.Value)
        : null;
}
