using System.Globalization;
using System.Net;
using Microsoft.Extensions.Options;
using NodaTime;

namespace Scheduler.Service.Weather;

/// <summary>
/// MET Norway's point forecast, for when the first source fails. Its operator asks to be told who calls, to be left alone until
/// <c>Expires</c>, and then to be asked only for what is newer.
/// </summary>
internal sealed class MetNorwaySource(
    IHttpClientFactory clients, IOptions<WeatherOptions> options, WeatherStore store, CallBudget budget, IClock clock) : IWeatherSource
{
    private static readonly Duration WhenThrottled = Duration.FromMinutes(10);
    private static readonly Duration WhenForbidden = Duration.FromHours(6);
    private static readonly Duration WhenNotCovered = Duration.FromDays(1);
    private static readonly Duration WithoutExpires = Duration.FromMinutes(30);

    public string Name => SourceNames.MetNorway;

    /// <summary>Has no past days, so <paramref name="pastDays"/> changes nothing.</summary>
    public async Task<WeatherAnswer> ForecastAsync(WeatherCell cell, int pastDays, CancellationToken cancel)
    {
        var agent = options.Value.MetNorway.UserAgent;
        if (string.IsNullOrWhiteSpace(agent))
            return Failed("Weather:MetNorway:UserAgent is not set, so it is not called");
        var now = clock.GetCurrentInstant();
        if (cell.FallbackExpiresAt is { } expires && expires > now)
            return new WeatherAnswer.Unchanged(expires);
        if (await budget.TakeAsync(Name, 1, CallPurpose.Refresh, limited: true, cancel) is { } notBefore)
            return Failed("it asked us to wait", notBefore);

        using var request = new HttpRequestMessage(HttpMethod.Get, options.Value.MetNorway.Url + Query(cell));
        request.Headers.TryAddWithoutValidation("User-Agent", agent);
        if (cell.FallbackLastModified is { } lastModified)
            request.Headers.TryAddWithoutValidation("If-Modified-Since", lastModified);
        var reply = await SourceReply.SendAsync(clients.CreateClient(WeatherHttp.MetNorwayClient), request, now, cancel);
        return reply switch
        {
            SourceReply.Nothing nothing => Failed(nothing.Reason),
            SourceReply.Body body => await ReadAsync(cell, body, now, cancel),
            _ => throw new InvalidOperationException("There is no other reply.")
        };
    }

    private async Task<WeatherAnswer> ReadAsync(WeatherCell cell, SourceReply.Body body, Instant now, CancellationToken cancel)
    {
        var expiresAt = body.ExpiresAt is { } given && given > now ? given : now + WithoutExpires;
        switch (body.Status)
        {
            case HttpStatusCode.NotModified:
                await store.SetFallbackAgeAsync(cell.Key, expiresAt, cell.FallbackLastModified, cancel);
                return new WeatherAnswer.Unchanged(expiresAt);
            // 203 is how a product is announced to end; its data are still good.
            case HttpStatusCode.OK or HttpStatusCode.NonAuthoritativeInformation when body.IsJson:
                var (got, fault) = MetNorwayDays.Read(body.Text, cell.OffsetHours, now);
                if (got is null)
                    return Failed($"its answer {fault}");
                return got with { ExpiresAt = expiresAt, LastModified = body.LastModified };
            case HttpStatusCode.OK or HttpStatusCode.NonAuthoritativeInformation:
                return Failed("its answer is no JSON");
            case HttpStatusCode.TooManyRequests:
                return await BlockedAsync("it is asked too often", now + WhenThrottled, body.RetryAfter, cancel);
            case HttpStatusCode.Forbidden:
                return await BlockedAsync(
                    "it refuses us; check that Weather:MetNorway:UserAgent says who runs this service", now + WhenForbidden, body.RetryAfter,
                    cancel);
            case HttpStatusCode.UnprocessableContent:
                return Failed("it does not cover this place", now + WhenNotCovered);
            default:
                return Failed($"it answered {(int)body.Status}");
        }
    }

    private async Task<WeatherAnswer> BlockedAsync(string what, Instant until, Instant? asked, CancellationToken cancel)
    {
        if (asked > until)
            until = asked.Value;
        await budget.BlockAsync(Name, until, cancel);
        return Failed(what, until);
    }

    // More than four decimals are refused; a cell's center has two.
    private static string Query(WeatherCell cell)
    {
        var query = FormattableString.Invariant($"?lat={cell.Latitude:0.####}&lon={cell.Longitude:0.####}");
        return cell.ElevationM is { } elevation
            ? query + "&altitude=" + Math.Round(elevation).ToString(CultureInfo.InvariantCulture) : query;
    }

    private static WeatherAnswer.Failed Failed(string what, Instant? retryAt = null) => new($"MET Norway: {what}.", retryAt);
}
