using NodaTime;
using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Techniques;

/// <summary>Everything the rules may look at for one tree. Both outlooks are conditioned on what was seen on this tree.</summary>
public sealed record TreeFacts(
    Tree Tree,
    Species Species,
    IReadOnlyList<WorkRecord> Work,
    IReadOnlyList<Observation> Observations,
    GrowthOutlook Current,
    GrowthOutlook Next)
{
    /// <summary>Ids of the promises that the owner let go.</summary>
    public IReadOnlySet<Guid> DismissedPromises { get; init; } = new HashSet<Guid>();
}

/// <summary>Everything the rules may look at for the whole garden.</summary>
public sealed record GardenFacts
{
    public required LocalDate Today { get; init; }
    /// <summary>It is still the night that began yesterday: its minimum, which falls at today's dawn, is to come.</summary>
    public bool NightIsOn { get; init; }
    public required double Latitude { get; init; }
    /// <summary>Daily weather from about two weeks back to the end of the forecast, ascending; today's is among them if known.</summary>
    public required IReadOnlyList<DayWeather> Days { get; init; }
    /// <summary>The owner's measured difference between bench and forecast minimum [C]; null: not measured.</summary>
    public double? BenchOffsetC { get; init; }
    /// <summary>Count back from the early tenth of first-frost dates instead of their mean.</summary>
    public bool CautiousFirstFrost { get; init; }
    /// <summary>Water is assured for the next seven days; null: nothing was said.</summary>
    public bool? WaterAssured { get; init; }
    public bool FrostFreeShelter { get; init; }
    public bool WindShelter { get; init; }
    /// <summary>Bench facts of the day, as the owner reported them; null: not reported.</summary>
    public bool? SoilDry { get; init; }
    public bool? WoodFrozen { get; init; }
    public double? RootBallC { get; init; }
    public double? RoomMinC { get; init; }
    public double? RoomMaxC { get; init; }
    /// <summary>Winter hardiness of the place, set by the owner or worked out from its winters; null: not known.</summary>
    public HardinessZone? Zone { get; init; }
}
