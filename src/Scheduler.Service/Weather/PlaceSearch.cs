using System.Net;
using System.Text.Json;
using Microsoft.Extensions.Options;
using NodaTime;

namespace Scheduler.Service.Weather;

/// <summary>A place to choose for a garden. Height in m above the sea, zone an IANA id; null where the source does not say.</summary>
public sealed record Place(
    string Name, string? Region, string? Country, double Latitude, double Longitude, double? ElevationM, string? TimeZone);

/// <summary>Finds places by name: Open-Meteo's search over GeoNames, or the invented places where only recorded weather is used.</summary>
internal sealed class PlaceSearch(
    IHttpClientFactory clients, IOptions<WeatherOptions> options, RecordedSource recorded, CallBudget budget, IClock clock)
{
    private const int ShortestName = 2;
    private const int MostPlaces = 10;
    private const string Counter = WeatherHttp.PlacesClient;

    /// <summary>The places, best first, or why none could be looked up.</summary>
    public async Task<(IReadOnlyList<Place> Places, string? Fault)> FindAsync(string name, CancellationToken cancel)
    {
        // The source answers shorter names with nothing.
        if (name.Length < ShortestName)
            return ([], null);
        if (options.Value.AllRecorded)
            return (Invented(name), null);
        if (options.Value.Sources.Count == 0)
            return ([], null);
        if (await budget.TakeAsync(Counter, 1, CallPurpose.Refresh, limited: true, cancel) is not null)
            return ([], "its call limit is used up for now");
        var now = clock.GetCurrentInstant();
        using var request = new HttpRequestMessage(
            HttpMethod.Get,
            $"{options.Value.OpenMeteo.GeocodingUrl}?name={Uri.EscapeDataString(name)}&count={MostPlaces}&language=en&format=json");
        if (options.Value.OpenMeteo.ApiKey is { Length: > 0 } key)
            request.Headers.Add("X-Api-Key", key);
        var reply = await SourceReply.SendAsync(clients.CreateClient(WeatherHttp.PlacesClient), request, now, cancel);
        switch (reply)
        {
            case SourceReply.Nothing nothing:
                return ([], nothing.Reason);
            case SourceReply.Body { Status: HttpStatusCode.OK, IsJson: true } body:
                return Read(body.Text) is { } places ? (places, null) : ([], "its answer cannot be read");
            case SourceReply.Body { Status: HttpStatusCode.TooManyRequests } body:
                var reason = OpenMeteoAnswer.Reason(body.Text);
                await budget.BlockAsync(Counter, OpenMeteoLimits.WaitUntil(reason, now, body.RetryAfter), cancel);
                return ([], reason);
            case SourceReply.Body body:
                return ([], $"it answered {(int)body.Status}");
            default:
                throw new InvalidOperationException("There is no other reply.");
        }
    }

    private List<Place> Invented(string name) =>
        [.. recorded.Places
            .Where(place => place.Name.Contains(name, StringComparison.OrdinalIgnoreCase))
            .Select(place => new Place(
                place.Name, "an invented place with invented weather", null, place.Latitude, place.Longitude, place.ElevationM,
                FixedOffset.ZoneId(FixedOffset.OfLongitude(place.Longitude))))];

    private static List<Place>? Read(string text)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            if (document.RootElement.ValueKind != JsonValueKind.Object)
                return null;
            // Without a match there is no list at all.
            if (!document.RootElement.TryGetProperty("results", out var results))
                return [];
            return results.ValueKind == JsonValueKind.Array ? [.. results.EnumerateArray().Select(PlaceOf).OfType<Place>()] : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    // Empty texts and zeros are left out. A coordinate that is not there is 0; a height that is not there may also be unknown.
    private static Place? PlaceOf(JsonElement item)
    {
        if (item.ValueKind != JsonValueKind.Object || Text(item, "name") is not { } name)
            return null;
        double latitude = Number(item, "latitude") ?? 0, longitude = Number(item, "longitude") ?? 0;
        if (Math.Abs(latitude) > 90 || Math.Abs(longitude) > 180 || (latitude == 0 && longitude == 0))
            return null;
        return new Place(name, Text(item, "admin1"), Text(item, "country"), latitude, longitude, Number(item, "elevation"), Text(item, "timezone"));
    }

    private static string? Text(JsonElement item, string key) =>
        item.TryGetProperty(key, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static double? Number(JsonElement item, string key) =>
        item.TryGetProperty(key, out var value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;
}
