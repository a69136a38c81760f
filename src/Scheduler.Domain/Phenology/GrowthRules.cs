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
    /// <summary>Spread of a catalog threshold around the truth, as a logarithm.</summary>
    public required Figure PriorSpread { get; init; }
    /// <summary>The same for a code three weeks from one of its own track that was learned here.</summary>
    public required Figure TrackSpread { get; init; }
    /// <summary>Spread of one year's threshold around a plant's own mean, as a logarithm.</summary>
    public required Figure YearSpread { get; init; }
    /// <summary>Half width of the early-late range that a catalog threshold may never undercut [d].</summary>
    public required Figure LeastHalfWidthDays { get; init; }
}
