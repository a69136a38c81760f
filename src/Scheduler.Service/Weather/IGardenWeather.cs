using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Weather;

/// <summary>What a garden may ask of the weather.</summary>
public interface IGardenWeather
{
    /// <summary>After a garden is made or moved: finds or makes its grid cell, fills in time zone and height where unknown,
    /// loads recorded weather at once or queues the backfill.</summary>
    Task AttachAsync(Guid gardenId, CancellationToken cancel = default);

    /// <summary>The days of the cell adjusted to the garden's height, with the owner's readings on top, ascending.</summary>
    Task<GardenDays> DaysAsync(Guid gardenId, CancellationToken cancel = default);

    /// <summary>Fetches the forecast now and replans the gardens of the cell; true if anything changed.</summary>
    Task<bool> RefreshAsync(Guid gardenId, CancellationToken cancel = default);
}

/// <summary>A garden's known and forecast days and how far they can be trusted.</summary>
public sealed record GardenDays(IReadOnlyList<DayWeather> Days, WeatherStatus Status);

/// <param name="State"><c>none</c>, <c>backfilling</c>, <c>ready</c> or <c>stale</c>.</param>
/// <param name="AsOf">When the newest day was fetched.</param>
/// <param name="Problem">What went wrong last, in words for the owner; null when all is well.</param>
public sealed record WeatherStatus(
    string State, Instant? AsOf, int YearsDone, int YearsWanted, IReadOnlyList<SourceUse> Sources, string? Problem);

/// <summary>A source in use, with the credit its license asks for.</summary>
public sealed record SourceUse(string Source, string Attribution, string? License, string Url);
