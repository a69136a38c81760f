using System.Text.Json.Serialization;
using NodaTime;

namespace Scheduler.Service.Gardens;

/// <summary>
/// One place with trees, as its owner describes it. What the weather source found out in the owner's stead (time zone, height) stands in
/// the same fields; <see cref="CellTimeZone"/> and <see cref="CellElevationM"/> tell it apart.
/// </summary>
public sealed record Garden
{
    public required Guid Id { get; init; }
    public required Guid AccountId { get; init; }
    public required string Name { get; init; }
    /// <summary>Degrees, north positive.</summary>
    public required double Latitude { get; init; }
    /// <summary>Degrees, east positive.</summary>
    public required double Longitude { get; init; }
    public double? ElevationM { get; init; }
    /// <summary>IANA id.</summary>
    public string? TimeZone { get; init; }
    /// <summary>The owner's word, 1a to 13b; null: worked out from the weather.</summary>
    public string? HardinessZone { get; init; }
    /// <summary>Measured difference between bench and forecast [C].</summary>
    public double? TemperatureOffsetC { get; init; }
    public IReadOnlyList<WorkDay> WorkDays { get; init; } = [];
    public IReadOnlyList<DayException> Exceptions { get; init; } = [];
    /// <summary><c>average</c> or <c>cautious</c>.</summary>
    public string FirstFrostChoice { get; init; } = "average";
    public bool? WaterAssured { get; init; }
    public bool? FrostFreeShelter { get; init; }
    /// <summary>The garden lives on recorded weather, as those of the demonstration do.</summary>
    public bool Recorded { get; init; }
    public required Instant CreatedAt { get; init; }
    public required Instant ChangedAt { get; init; }
    public string? CellTimeZone { get; init; }
    public double? CellElevationM { get; init; }

    /// <summary>The local date of an instant; in UTC while the time zone is not known.</summary>
    public LocalDate DateAt(Instant instant) =>
        instant.InZone((TimeZone is null ? null : DateTimeZoneProviders.Tzdb.GetZoneOrNull(TimeZone)) ?? DateTimeZone.Utc).Date;

    /// <summary>
    /// This garden at another place: what the weather source had found for the old place is forgotten, so that it is found anew.
    /// </summary>
    public Garden MovedFrom(Garden before, bool zoneGiven, bool elevationGiven)
    {
        if (before.Latitude == Latitude && before.Longitude == Longitude)
            return this;
        return this with
        {
            TimeZone = !zoneGiven && before.TimeZone == before.CellTimeZone ? null : TimeZone,
            ElevationM = !elevationGiven && before.ElevationM == before.CellElevationM ? null : ElevationM
        };
    }
}

/// <summary>A weekday on which the owner works on trees, and for how long.</summary>
/// <param name="Day"><c>monday</c> to <c>sunday</c>.</param>
/// <param name="Minutes">1 to 1440.</param>
/// <param name="People">How many can lend a hand, the owner among them; null: not said.</param>
public sealed record WorkDay(
    IsoDayOfWeek Day, int Minutes, [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] int? People = null);
