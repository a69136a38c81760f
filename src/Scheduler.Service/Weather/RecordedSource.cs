using Microsoft.Extensions.Options;
using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Weather;

/// <summary>Invented demonstration weather from files: no network, any garden, never runs out.</summary>
internal sealed class RecordedSource(IOptions<WeatherOptions> options)
{
    public const int ForecastDays = 16;

    /// <summary>Gardens this near the equator, in degrees, get the place without a winter (the edge of the humid tropics; estimate).</summary>
    private const double TropicsEndAt = 15;

    private readonly Lazy<IReadOnlyList<RecordedPlace>> _places = new(() => Read(options.Value.RecordedFolder));

    public IReadOnlyList<RecordedPlace> Places => _places.Value;

    /// <summary>The place with the nearest latitude of the same hemisphere; near the equator, the tropical one.</summary>
    public RecordedPlace PlaceFor(double latitude)
    {
        var tropical = IsTropical(latitude);
        var alike = Places.Where(place => IsTropical(place.Latitude) == tropical
            && (tropical || Hemisphere.OfLatitude(place.Latitude) == Hemisphere.OfLatitude(latitude)));
        return alike.Concat(Places).DistinctBy(place => place.Id)
            .OrderBy(place => alike.Contains(place) ? 0 : 1)
            .ThenBy(place => Math.Abs(place.Latitude - latitude))
            .First();
    }

    /// <summary>As far back as the archive is fetched for other gardens, and the forecast.</summary>
    public IReadOnlyList<DayWeather> Days(double latitude, LocalDate today)
    {
        var place = PlaceFor(latitude);
        return [.. place.Days(Backfill.WantedFrom(latitude, today), today.PlusDays(ForecastDays), today)];
    }

    private static bool IsTropical(double latitude) => Math.Abs(latitude) <= TropicsEndAt;

    private static List<RecordedPlace> Read(string folder)
    {
        var files = Directory.Exists(folder) ? Directory.GetFiles(folder, "*.csv") : [];
        if (files.Length == 0)
            throw new InvalidOperationException($"'{folder}' holds no recorded weather. Set Weather:RecordedFolder.");
        return [.. files.Order(StringComparer.Ordinal).Select(RecordedPlace.Read)];
    }
}
