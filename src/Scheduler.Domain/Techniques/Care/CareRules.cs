using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>
/// What one kind of care goes by. Care is no hand work: it is on, off or armed by the state of tree and weather, it has
/// no tables, no load and is never missed.
/// </summary>
public abstract record CareRules;

/// <summary>
/// When and how strongly to feed. Rows without feed are rests: a rest that is on beats every row that feeds. Of the rows
/// that feed the first that fits and is on counts.
/// </summary>
public sealed record FeedingRules : CareRules
{
    public required IReadOnlyList<FeedRow> Rows { get; init; }
    /// <summary>Days from one feed to the next, earliest and latest; the label of the product decides.</summary>
    public required Figure CycleLowDays { get; init; }
    public required Figure CycleHighDays { get; init; }
    /// <summary>No feed at this maximum or more [C].</summary>
    public required Figure HeatC { get; init; }
    /// <summary>No feed while the root ball is colder [C].</summary>
    public required Figure ColdBallC { get; init; }
}

/// <summary>One row: for whom, from when, until when (null: on to the end of the growth year), and which feed (null: rest).</summary>
/// <param name="Feed"><c>strong</c>, <c>medium</c>, <c>light</c> or <c>low-nitrogen</c>.</param>
public sealed record FeedRow(AppliesTo For, Trigger From, Trigger? Until, string? Feed, string Text, Provenance Provenance) : IRuleRow;

/// <summary>A number [C] for the trees it applies to.</summary>
public sealed record LimitRow(AppliesTo For, Figure Limit) : IRuleRow;

/// <summary>At which maximum [C] to shade.</summary>
public sealed record HeatShadeRules : CareRules
{
    /// <summary>Trees that bear heat; <see cref="EveryTreeC"/> does not hold for them.</summary>
    public required IReadOnlyList<AppliesTo> HeatBearing { get; init; }
    public required Figure EveryTreeC { get; init; }
    /// <summary>Lower limits; the lowest that fits counts.</summary>
    public required IReadOnlyList<LimitRow> Lower { get; init; }
    /// <summary>Measured root ball: beware from here, act from there [C].</summary>
    public required Figure BallCautionC { get; init; }
    public required Figure BallActC { get; init; }
    /// <summary>Shade comes off after so many days under the limit.</summary>
    public required Figure DaysUnder { get; init; }
    /// <summary>Days ahead that are told as a window.</summary>
    public required Figure LookDays { get; init; }
}

/// <summary>A factor from a phase on, for the trees it applies to; the last that is reached counts.</summary>
public sealed record PhaseFactor(AppliesTo For, Trigger From, Figure Factor) : IRuleRow;

/// <summary>A factor while work still shows.</summary>
/// <param name="Until">When leaves have made up for it; null: for the rest of the growth year.</param>
public sealed record WorkFactor(string Work, Trigger? Until, Figure Factor);

/// <summary>Water drawn: reference evapotranspiration [mm/d] times factors of phase, leaf, pot, place and species.</summary>
public sealed record WateringRules : CareRules
{
    public required IReadOnlyList<PhaseFactor> Phases { get; init; }
    /// <summary>The smallest that fits counts.</summary>
    public required IReadOnlyList<WorkFactor> Work { get; init; }
    public required IReadOnlyDictionary<Trees.TreeSize, Figure> Pots { get; init; }
    public required IReadOnlyDictionary<Trees.Placement, Figure> Places { get; init; }
    public required Figure WindFactor { get; init; }
    public required Figure WindKmh { get; init; }
    /// <summary>What a room draws in a day [mm], where the weather outside says nothing.</summary>
    public required Figure RoomMm { get; init; }
    /// <summary>Daily above this index.</summary>
    public required Figure DailyAbove { get; init; }
    /// <summary>Small pots several times a day from this maximum on [C].</summary>
    public required Figure SeveralFromC { get; init; }
    /// <summary>Never longer than this between two looks [d].</summary>
    public required Figure MostDays { get; init; }
}

/// <summary>When to bring a tree into its winter place and out again. The limit is that of the species' roots.</summary>
public sealed record StorageRules : CareRules
{
    /// <summary>In while the root ball is this much above the temperature that kills roots; at the lower margin it is the last call [C].</summary>
    public required Figure InMarginC { get; init; }
    public required Figure LastCallMarginC { get; init; }
    /// <summary>Root ball above bench minimum, by size [C].</summary>
    public required IReadOnlyDictionary<Trees.TreeSize, Figure> BallWarmerC { get; init; }
    /// <summary>Young roots die so much earlier than mature ones where the species says nothing [C].</summary>
    public required Figure YoungRootsC { get; init; }
    /// <summary>Light frosts that come first, and what counts as one [C].</summary>
    public required Figure LightFrosts { get; init; }
    public required Figure LightFrostC { get; init; }
    /// <summary>Trees that grow whenever it is warm: in at this bench minimum, out when a week stays above it [C].</summary>
    public required Figure WarmClimateC { get; init; }
    /// <summary>Out when the root ball has been warmer than this for so many days.</summary>
    public required Figure OutBallC { get; init; }
    public required Figure OutDays { get; init; }
    /// <summary>A warm ball counts only while no night ahead comes so near to the limit for coming in [C].</summary>
    public required Figure OutMarginC { get; init; }
    /// <summary>Share of winters that must reach the limit before storage is planned.</summary>
    public required Figure LeastShare { get; init; }
    /// <summary>Nights ahead that are looked at.</summary>
    public required Figure LookNights { get; init; }
}

/// <summary>How often to look for pest and disease [d].</summary>
public sealed record ScoutingRules : CareRules
{
    public required Figure GrowthDays { get; init; }
    public required Figure RestDays { get; init; }
}
