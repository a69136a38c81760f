using NodaTime;

namespace Scheduler.Service.Weather;

/// <summary>A grid cell whose gardens share one weather record, as stored.</summary>
/// <remarks>
/// <see cref="ElevationM"/> is the height the source's temperatures hold for. <see cref="UtcOffsetHours"/> cuts the days and never
/// changes once known. <see cref="WantedFrom"/> is where the backfill ends, <see cref="FilledFrom"/> how far back it has come.
/// </remarks>
internal sealed class WeatherCell
{
    public required string Key { get; init; }
    public required double Latitude { get; init; }
    public required double Longitude { get; init; }
    public double? ElevationM { get; init; }
    public string? TimeZone { get; init; }
    public int? UtcOffsetHours { get; init; }
    public required LocalDate WantedFrom { get; init; }
    public LocalDate? FilledFrom { get; init; }
    public Instant? RefreshedAt { get; init; }
    public Instant? FinalizedAt { get; init; }

    /// <summary>What went wrong with the forecast last, and with the archive; null when the last try went well.</summary>
    public string? LastError { get; init; }
    public string? ArchiveError { get; init; }

    /// <summary>Until when the fallback forecast asked not to be asked again, and what it last said about its age.</summary>
    public Instant? FallbackExpiresAt { get; init; }
    public string? FallbackLastModified { get; init; }

    public bool IsFilled => FilledFrom is { } filled && filled <= WantedFrom;

    public string? Problem => LastError == ArchiveError || ArchiveError is null ? LastError : $"{LastError} {ArchiveError}".Trim();

    /// <summary>What cuts the days until the source has said which zone this is.</summary>
    public int OffsetHours => UtcOffsetHours ?? FixedOffset.OfLongitude(Longitude);
}
