namespace Scheduler.Domain.Phenology;

/// <summary>
/// One species of the catalog: what it is, how it answers to heat and cold, and what to beware of. Habit, leaves and
/// flower timing are handbook botany (common practice); every number says for itself where it comes from.
/// </summary>
public sealed record Species
{
    public required string Id { get; init; }
    public required string BotanicalName { get; init; }
    public required string CommonName { get; init; }
    public required string Family { get; init; }
    /// <summary>Technique group (how it answers to hand work), such as <c>fine-palmate-maple</c>'s code MPJ.</summary>
    public required string Group { get; init; }
    /// <summary><c>bleeder</c>, <c>prunus</c>, <c>basally-dominant</c>, <c>shade-sensitive</c>, <c>opposite</c>, <c>alternate</c> and the like.</summary>
    public required IReadOnlySet<string> Attributes { get; init; }
    public required string Habit { get; init; }
    /// <summary>Such as <c>deciduous</c>, <c>evergreen-broadleaf</c>, <c>deciduous-conifer</c>, <c>evergreen-conifer</c>.</summary>
    public required string LeafType { get; init; }
    /// <summary>How leaves or needles stand on the shoot.</summary>
    public string? Leaves { get; init; }
    public string? FlowerBudsOpen { get; init; }
    public required ThermalTimes ThermalTimes { get; init; }
    public required Hardiness Hardiness { get; init; }
    /// <summary>Warnings for people and animals; empty when none is known.</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];
    public Provenance CautionsProvenance { get; init; } = Provenance.CommonPractice;
    public string? CautionsSource { get; init; }
    /// <summary>Where this species parts from the rules of its technique group.</summary>
    public IReadOnlyList<TechniqueRemark> Remarks { get; init; } = [];
    /// <summary>Water drawn against that of an ordinary leafy tree; null: the same.</summary>
    public Figure? WaterFactor { get; init; }
    /// <summary>Published figures in their own units, and remarks that no field holds.</summary>
    public IReadOnlyList<Finding> Notes { get; init; } = [];

    public bool IsConifer => LeafType.Contains("conifer", StringComparison.Ordinal) && !LeafType.Contains("deciduous", StringComparison.Ordinal);
    public bool IsDeciduous => LeafType.Contains("deciduous", StringComparison.Ordinal);
    public bool HasOppositeLeaves => Attributes.Contains("opposite");
    /// <summary>No winter rest: grows whenever it is warm, so it has no spring to forecast.</summary>
    public bool GrowsWheneverWarm => ThermalTimes.BudBreakCd is null && ThermalTimes.ChillPortions.Value == 0;
    public IReadOnlyList<GrowthPhase> Phases => IsConifer ? GrowthPhase.Conifer : IsDeciduous ? GrowthPhase.Broadleaf : GrowthPhase.EvergreenBroadleaf;
}

/// <summary>
/// Heat sums at which phases come [degree-days above <see cref="BaseC"/>, daily mean method, from 1 January north or
/// 1 July south], and the chill that a normal bud break needs [portions of the dynamic model]. Null: does not apply.
/// </summary>
public sealed record ThermalTimes
{
    public required Figure BaseC { get; init; }
    public Figure? BudSwellCd { get; init; }
    public Figure? BudBreakCd { get; init; }
    public Figure? FirstLeafCd { get; init; }
    public Figure? FirstBloomCd { get; init; }
    /// <summary>Blooms by day length, late in the season; heat does not tell when.</summary>
    public bool BloomFollowsDayLength { get; init; }
    /// <summary>End of the first extension. Null: keeps growing while it is warm, moist and the days are long.</summary>
    public Figure? ExtensionEndCd { get; init; }
    /// <summary>Pines and other conifers: spring needles out.</summary>
    public Figure? NeedlesOutCd { get; init; }
    /// <summary>Heat from one leaf (opposite: pair) to the next [C*d].</summary>
    public Figure? PhyllochronCd { get; init; }
    /// <summary>Leaves (opposite: pairs) that lie ready in the winter bud and open close together.</summary>
    public Figure? PreformedLeaves { get; init; }
    /// <summary>Days by which leaves color and fall after the rule common to all (<see cref="Autumn"/>); negative: before it. Null: with it.</summary>
    public Figure? AutumnShiftDays { get; init; }
    public required Figure ChillPortions { get; init; }
    /// <summary>How strongly spring day length matters: none, weak, moderate or strong.</summary>
    public required string DayLengthEffect { get; init; }
    public Provenance DayLengthProvenance { get; init; } = Provenance.Estimate;
}

/// <summary>What cold a species bears [C]. Zones are USDA half-zones for plants in the ground.</summary>
public sealed record Hardiness
{
    public required string ColdestZone { get; init; }
    public required string WarmestZone { get; init; }
    public required Provenance ZonesProvenance { get; init; }
    public required Figure AirLowC { get; init; }
    /// <summary>Temperature of the root ball, not the air, that kills mature roots.</summary>
    public required Figure RootKillC { get; init; }
    /// <summary>The same for young roots, where it is known; they die first.</summary>
    public Figure? YoungRootKillC { get; init; }
    public required Figure NewLeafDamageC { get; init; }
    /// <summary>Tender species: keep above this in winter.</summary>
    public Figure? KeepAboveC { get; init; }
    /// <summary>Tender species: grows best between low and high.</summary>
    public Figure? BestC { get; init; }
}

/// <summary>What a species does not bear, or wants otherwise, although its group does. It beats the rule of the group.</summary>
/// <param name="Effect"><c>off</c>, <c>rarely</c> or <c>differently</c>.</param>
public sealed record TechniqueRemark(string Technique, string Effect, string Text, Provenance Provenance);
