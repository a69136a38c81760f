namespace Scheduler.Domain.Phenology;

/// <summary>
/// How the growth points between the catalog's phases are placed, the same for all species (config/growth.yaml).
/// Heat is [C*d above base 5]; shares are 0-1; BBCH codes after Meier (2001).
/// </summary>
public sealed record GrowthRules
{
    /// <summary>Share of the bud-swell heat at which buds begin to swell (BBCH 01; swelling done is 03).</summary>
    public required Figure SwellBeginsShare { get; init; }
    /// <summary>Share of the way from bud break (07) to first leaf (11) at which leaf tips stand past the scales (09).</summary>
    public required Figure LeafTipsShare { get; init; }
    /// <summary>The same for first leaves separating (10).</summary>
    public required Figure LeavesSeparateShare { get; init; }
    /// <summary>From first leaves separating (10) to the flush hardened.</summary>
    public required Figure HardenedAfterLeavesCd { get; init; }
    /// <summary>From one unfolded leaf to the next where the species gives no phyllochron (leaves preformed in the bud).</summary>
    public required Figure PreformedLeafCd { get; init; }
    /// <summary>Share of the heat from bud break to nine tenths of the shoot's length at which half of it is there.</summary>
    public required Figure ShootHalfLengthShare { get; init; }
    /// <summary>Spread of a plant's own heat from leaf to leaf around the catalog's, as a logarithm.</summary>
    public required Figure LeafStepSpread { get; init; }
    /// <summary>Error of one count of unfolded leaves or pairs [leaves].</summary>
    public required Figure LeafCountError { get; init; }
    /// <summary>From a cut or a leaf removal to the first new leaves.</summary>
    public required Figure RegrowthLeavesCd { get; init; }
    /// <summary>Flower buds visible (55) this much before first bloom (60).</summary>
    public required Figure FlowerBudsBeforeBloomCd { get; init; }
    public required Figure FullBloomAfterCd { get; init; }
    public required Figure PetalsDownAfterCd { get; init; }
    /// <summary>Need = heat * (1 + this * missing share of chill).</summary>
    public required Figure ShortChillPenalty { get; init; }
    /// <summary>Under this share of the chill need, normal bud break is not expected at all.</summary>
    public required Figure LeastChillShare { get; init; }
    public required Figure LeafFallDayLengthHours { get; init; }
    public required Figure LeafFallMeanC { get; init; }
    public required Figure EvergreenRestNightC { get; init; }
    /// <summary>Leaves begin to color (92) so long before half of them are down [d].</summary>
    public required Figure LeafColorBeforeHalfDays { get; init; }
    /// <summary>From the first leaves down (93) to half (95), and from half to the last (97) [d].</summary>
    public required Figure LeafFallStepDays { get; init; }
    /// <summary>Error of the rule for leaf fall at a new place [d, standard deviation].</summary>
    public required Figure AutumnSpreadDays { get; init; }
    /// <summary>One autumn around a plant's own usual date [d, standard deviation].</summary>
    public required Figure AutumnYearSpreadDays { get; init; }
    /// <summary>Error of a later autumn date once an earlier one was seen the same autumn [d, standard deviation].</summary>
    public required Figure AutumnStepSpreadDays { get; init; }
    /// <summary>Days that each degree of cooling beyond the usual brings leaf color and fall forward.</summary>
    public required Figure AutumnDaysPerCoolingC { get; init; }
    /// <summary>Spread of a catalog threshold around the truth, as a logarithm.</summary>
    public required Figure PriorSpread { get; init; }
    /// <summary>The same for a code three weeks from one of its own track that was learned here.</summary>
    public required Figure TrackSpread { get; init; }
    /// <summary>Spread of one year's threshold around a plant's own mean, as a logarithm.</summary>
    public required Figure YearSpread { get; init; }
    /// <summary>Half width of the early-late range that a catalog threshold may never undercut [d].</summary>
    public required Figure LeastHalfWidthDays { get; init; }
}
