using System.Net;
using System.Text.Json;
using Microsoft.Extensions.Options;
using NodaTime;

namespace Scheduler.Service.Weather;

/// <summary>The zone and height of a place; where the source's zone is none that we know, the zone of its offset.</summary>
internal sealed record PlaceFacts(string TimeZone, int UtcOffsetHours, double? ElevationM);

/// <summary>Open-Meteo: forecast with past days, and the archive. Every call is counted before it is made.</summary>
internal sealed class OpenMeteoSource(IHttpClientFactory clients, IOptions<WeatherOptions> options, CallBudget budget, IClock clock)
    : IWeatherSource
{
    public const int ForecastDays = 16;
    public const int MostPastDays = 92;

    private static readonly TimeSpan ArchiveTimeout = TimeSpan.FromSeconds(60);
    private static readonly Duration AfterRefusal = Duration.FromHours(6);

    private OpenMeteoOptions Settings => options.Value.OpenMeteo;

    public string Name => SourceNames.OpenMeteo;

    public Task<WeatherAnswer> ForecastAsync(WeatherCell cell, int pastDays, CancellationToken cancel)
    {
        var today = FixedOffset.Today(clock.GetCurrentInstant(), cell.OffsetHours);
        var question = OpenMeteoQuestion.Forecast(Settings.ForecastUrl, cell, today, Math.Min(pastDays, MostPastDays), ForecastDays);
        return AskAsync(question, SourceNames.OpenMeteo, CallPurpose.Refresh, cancel);
    }

    /// <summary>Past days of the archive, both inclusive.</summary>
    public Task<WeatherAnswer> HistoryAsync(
        WeatherCell cell, LocalDate from, LocalDate to, bool withRain, CallPurpose purpose, CancellationToken cancel) =>
        AskAsync(
            OpenMeteoQuestion.Archive(Settings.ArchiveUrl, cell, from, to, withRain), SourceNames.OpenMeteoArchive, purpose, cancel);

    /// <summary>Which zone a place lies in and how high.</summary>
    public async Task<(PlaceFacts? Place, WeatherAnswer.Failed? Failed)> PlaceAsync(WeatherCell cell, CancellationToken cancel)
    {
        var query = FormattableString.Invariant(
            $"?latitude={cell.Latitude:0.####}&longitude={cell.Longitude:0.####}&daily={OpenMeteoQuestion.Max}&timezone=auto&forecast_days=1");
        var (text, failed) = await SendAsync(Settings.ForecastUrl + query, 1, CallPurpose.Refresh, null, cancel);
        if (text is null)
            return (null, failed);
        try
        {
            using var document = JsonDocument.Parse(text);
            return Place(document.RootElement) is { } place
                ? (place, null) : (null, Refusal("its answer does not say which time zone the place has"));
        }
        catch (JsonException)
        {
            return (null, Refusal("its answer is no valid JSON"));
        }
    }

    internal async Task<WeatherAnswer> AskAsync(OpenMeteoQuestion question, string asSource, CallPurpose purpose, CancellationToken cancel)
    {
        var isArchive = asSource == SourceNames.OpenMeteoArchive;
        var (text, failed) = await SendAsync(question.Url + question.Query, question.Weight, purpose, isArchive ? ArchiveTimeout : null, cancel);
        if (text is null)
            return failed!;
        var now = clock.GetCurrentInstant();
        var stamp = new OpenMeteoAnswer.Stamp(asSource, FixedOffset.Today(now, question.OffsetHours), now);
        var (got, fault) = OpenMeteoAnswer.Read(text, question, stamp);
        return got ?? (WeatherAnswer)Refusal($"its answer {fault}");
    }

    private async Task<(string? Text, WeatherAnswer.Failed? Failed)> SendAsync(
        string url, double weight, CallPurpose purpose, TimeSpan? attemptTimeout, CancellationToken cancel)
    {
        if (await budget.TakeAsync(Name, weight, purpose, limited: Settings.ApiKey is null, cancel) is { } notBefore)
            return (null, new WeatherAnswer.Failed("Open-Meteo: its call limit is used up for now.", notBefore));
        using var request = new HttpRequestMessage(HttpMethod.Get, url);
        if (Settings.ApiKey is { Length: > 0 } key)
            request.Headers.Add("X-Api-Key", key);
        if (attemptTimeout is { } timeout)
            request.Options.Set(WeatherHttp.AttemptTimeout, timeout);
        var now = clock.GetCurrentInstant();
        var reply = await SourceReply.SendAsync(clients.CreateClient(WeatherHttp.OpenMeteoClient), request, now, cancel);
        if (reply.Attempts > 1)
            await budget.ChargeAsync(Name, reply.Attempts - 1, purpose, cancel);
        return reply switch
        {
            SourceReply.Nothing nothing => (null, new WeatherAnswer.Failed($"Open-Meteo: {nothing.Reason}.")),
            SourceReply.Body { Status: HttpStatusCode.OK, IsJson: true } body => (body.Text, null),
            SourceReply.Body { Status: HttpStatusCode.TooManyRequests } body => (null, await LimitedAsync(body, now, cancel)),
            SourceReply.Body body => (null, Unusable(body)),
            _ => throw new InvalidOperationException("There is no other reply.")
        };
    }

    private async Task<WeatherAnswer.Failed> LimitedAsync(SourceReply.Body body, Instant now, CancellationToken cancel)
    {
        var reason = OpenMeteoAnswer.Reason(body.Text);
        var until = OpenMeteoLimits.WaitUntil(reason, now, body.RetryAfter);
        await budget.BlockAsync(Name, until, cancel);
        return new WeatherAnswer.Failed($"Open-Meteo: {reason}", until);
    }

    private WeatherAnswer.Failed Unusable(SourceReply.Body body) => (int)body.Status switch
    {
        200 => Refusal("its answer is no JSON"),
        >= 300 and < 400 => Refusal("it points to another address; set the Weather:OpenMeteo URLs to where it is now"),
        >= 500 => new WeatherAnswer.Failed($"Open-Meteo: it answered {(int)body.Status}."),
        // Asking the same again soon would only cost calls.
        _ => new WeatherAnswer.Failed(
            $"Open-Meteo: it answered {(int)body.Status}: {OpenMeteoAnswer.Reason(body.Text)}", clock.GetCurrentInstant() + AfterRefusal)
    };

    private static WeatherAnswer.Failed Refusal(string what) => new($"Open-Meteo: {what}.");

    private PlaceFacts? Place(JsonElement root)
    {
        if (root.ValueKind != JsonValueKind.Object)
            return null;
        var id = root.TryGetProperty("timezone", out var name) && name.ValueKind == JsonValueKind.String ? name.GetString() : null;
        var elevation = OpenMeteoAnswer.Elevation(root);
        if (id is not null && DateTimeZoneProviders.Tzdb.GetZoneOrNull(id) is { } zone)
            return new PlaceFacts(id, FixedOffset.StandardHours(zone, clock.GetCurrentInstant()), elevation);
        if (root.TryGetProperty("utc_offset_seconds", out var offset) && offset.ValueKind == JsonValueKind.Number
            && Math.Floor(offset.GetDouble() / 3600) is >= -12 and <= 14 and var hours)
            return new PlaceFacts(FixedOffset.ZoneId((int)hours), (int)hours, elevation);
        return null;
    }
}
