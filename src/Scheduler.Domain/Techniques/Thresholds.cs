using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// Numbers that several techniques share (config/thresholds.yaml). Temperatures [C], rain [mm], heat [C*d], gusts [km/h];
/// the name says which. Each figure carries its provenance.
/// </summary>
public sealed record Thresholds
{
    // Weather holds.
    public required Figure FrostSoonC { get; init; }
    public required Figure FrostSoonNights { get; init; }
    public required Figure HardFrostC { get; init; }
    public required Figure HardFrostNights { get; init; }
    public required Figure HeatOnShadeSensitiveC { get; init; }
    public required Figure HeatOnLeafWorkC { get; init; }
    public required Figure HeatOnLeafWorkDays { get; init; }
    public required Figure ExtremeHeatC { get; init; }
    public required Figure ExtremeHeatDays { get; init; }
    public required Figure WindKmh { get; init; }
    public required Figure WindDays { get; init; }
    public required Figure SoakingRainMm { get; init; }
    public required Figure SoakingRainRunDays { get; init; }
    public required Figure RainOnCutsMm { get; init; }
    public required Figure RainOnCutsDays { get; init; }
    public required Figure FrozenWoodC { get; init; }
    public required Figure FrozenWoodNights { get; init; }

    // Bench minimum and frost protection.
    public required Figure ClearCalmNightOffsetC { get; init; }
    public required Figure ActSwellingC { get; init; }
    public required Figure ActBudBurstC { get; init; }
    public required Figure ActLeavesOpenC { get; init; }
    public required Figure ActBloomC { get; init; }
    public required Figure ActFreshRootsC { get; init; }
    public required Figure ActStrippedC { get; init; }
    public required Figure ActWarmClimateC { get; init; }
    public required Figure FreshRootsDays { get; init; }
    public required Figure FrostLookNights { get; init; }
    public required Figure FrostWindowNights { get; init; }
    /// <summary>Hour of the local clock by which the minimum of a night is over [h].</summary>
    public required Figure NightEndsHour { get; init; }

    // Shelter the tree stands in, against the open bench.
    public required Figure ShelteredWarmerC { get; init; }
    public required Figure ColdFrameWarmerC { get; init; }
    // How long leaves that work has bared stay tender.
    public required Figure BaredLeafDays { get; init; }

    // Gates.
    public required Figure ArrivalRestSeasons { get; init; }
    public required Figure LeafAreaCapVigorousPercent { get; init; }
    public required Figure LeafAreaCapSoundPercent { get; init; }
    public required Figure LeafAreaCapDays { get; init; }
    public required Figure LeastLeafWorkPercent { get; init; }
    public required Figure LeafJobGapCd { get; init; }
    public required Figure RoomMinC { get; init; }
    public required Figure DayLengthBackstopMinutes { get; init; }
    public required Figure BackstopFromLatitude { get; init; }
    public required Figure BackstopToLatitude { get; init; }
    public required Figure Dense { get; init; }

    // Growth facts the clock does not give.
    public required Figure LeavesFullSizeCd { get; init; }
    public required Figure HardenedLowCd { get; init; }
    public required Figure HardenedHighCd { get; init; }
    public required Figure SecondFlushLeavesCd { get; init; }
    public required Figure SummerNeedlesCd { get; init; }
    public required Figure GreenCutDays { get; init; }
    public required Figure LeafThinningDays { get; init; }
    public required Figure AfterBloomDays { get; init; }
    public required Figure WarmNightC { get; init; }
    public required Figure NightMeanDays { get; init; }
    public required Figure FreshObservationDays { get; init; }
    public required Figure VisitDays { get; init; }
    public required Figure MostSpringsInARow { get; init; }
    public required Figure ClosingShare { get; init; }
    /// <summary>A look that was promised is let go so many days after it was due.</summary>
    public required Figure LookLapsesDays { get; init; }

    // Rest between heavy bends and root work, shares of the living top.
    public required Figure BendRestVigorousDays { get; init; }
    public required Figure BendRestDays { get; init; }
    public required Figure TopShareDeciduousPercent { get; init; }
    public required Figure TopShareConiferPercent { get; init; }
    public required Figure TopShareRefinedPercent { get; init; }

    // Root work intervals, in seasons.
    public required Figure RepotYoungLow { get; init; }
    public required Figure RepotYoungHigh { get; init; }
    public required Figure RepotRamificationLow { get; init; }
    public required Figure RepotRamificationHigh { get; init; }
    public required Figure RepotRefinementLow { get; init; }
    public required Figure RepotRefinementHigh { get; init; }
    public required Figure RepotConiferLow { get; init; }
    public required Figure RepotConiferHigh { get; init; }
    /// <summary>How long a look at standing water and lifting roots answers, in days.</summary>
    public required Figure RootTestDays { get; init; }
}
