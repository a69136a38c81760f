using NodaTime;
using Scheduler.Domain.Weather;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Gardens;

/// <summary>What may be sent of a garden. On a change, a field left out keeps its value and null clears what is optional.</summary>
/// <param name="Latitude">Degrees, -90 to 90, north positive.</param>
/// <param name="Longitude">Degrees, -180 to 180, east positive.</param>
/// <param name="ElevationM">Height above the sea [m]; found from the weather source when left out.</param>
/// <param name="TimeZone">IANA id; found from the weather source when left out.</param>
/// <param name="HardinessZone">1a to 13b; worked out from 30 winters when left out.</param>
/// <param name="TemperatureOffsetC">How much warmer (positive) or colder the benches are than the forecast says [C], -15 to 15.</param>
/// <param name="Exceptions">Days that differ from <paramref name="WorkDays"/>; of two that meet, the later in the list counts.</param>
/// <param name="FirstFrostChoice"><c>average</c> (when left out) or <c>cautious</c>.</param>
/// <param name="WaterAssured">Somebody waters for the next seven days.</param>
public sealed record GardenRequest(
    string Name, double Latitude, double Longitude, double? ElevationM, string? TimeZone, string? HardinessZone, double? TemperatureOffsetC,
    IReadOnlyList<WorkDay>? WorkDays, IReadOnlyList<DayException>? Exceptions, string? FirstFrostChoice, bool? WaterAssured, bool? FrostFreeShelter);

/// <summary>A garden as its owner gets to see it.</summary>
/// <param name="Hemisphere"><c>north</c> or <c>south</c>.</param>
/// <param name="HardinessZone">Null while it is neither set nor known from the weather.</param>
/// <param name="HardinessZoneFrom"><c>owner</c> or <c>weather</c>; null while there is none.</param>
/// <param name="Weather">How far the weather of this garden is known.</param>
public sealed record GardenAnswer(
    Guid Id, string Name, double Latitude, double Longitude, double? ElevationM, string? TimeZone, Hemisphere Hemisphere,
    string? HardinessZone, string? HardinessZoneFrom, double? TemperatureOffsetC, IReadOnlyList<WorkDay> WorkDays,
    IReadOnlyList<DayException> Exceptions, string FirstFrostChoice, bool? WaterAssured, bool? FrostFreeShelter, WeatherStatus Weather, Instant CreatedAt, Instant ChangedAt);
