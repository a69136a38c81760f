using System.Net;
using System.Text;
using NodaTime;

namespace Scheduler.Service.Weather;

/// <summary>What came back from a provider: a body to read, or why there is none.</summary>
internal abstract record SourceReply
{
    private SourceReply()
    {
    }

    /// <summary>How often the request went out; each time counts at the source.</summary>
    public int Attempts { get; private init; }

    public sealed record Body(HttpStatusCode Status, string? MediaType, string Text) : SourceReply
    {
        public Instant? RetryAfter { get; init; }
        public Instant? ExpiresAt { get; init; }

        /// <summary>As sent: it must be given back letter by letter.</summary>
        public string? LastModified { get; init; }

        public bool IsJson => MediaType is not null && MediaType.EndsWith("json", StringComparison.OrdinalIgnoreCase);
    }

    public sealed record Nothing(string Reason) : SourceReply;

    public static async Task<SourceReply> SendAsync(HttpClient client, HttpRequestMessage request, Instant now, CancellationToken cancel)
    {
        SourceReply reply;
        try
        {
            using var response = await client.SendAsync(request, cancel);
            reply = await ReadAsync(response, now, cancel);
        }
        catch (Exception fault) when (WeatherHttp.Explain(fault) is { } reason)
        {
            reply = new Nothing(reason);
        }
        request.Options.TryGetValue(WeatherHttp.Attempts, out var attempts);
        return reply with { Attempts = attempts };
    }

    private static async Task<Body> ReadAsync(HttpResponseMessage response, Instant now, CancellationToken cancel)
    {
        // All providers send UTF-8; a wrong charset in the header must not stop us.
        var text = Encoding.UTF8.GetString(await response.Content.ReadAsByteArrayAsync(cancel));
        return new Body(response.StatusCode, response.Content.Headers.ContentType?.MediaType, text)
        {
            RetryAfter = response.Headers.RetryAfter switch
            {
                { Delta: { } delta } => now + Duration.FromTimeSpan(delta),
                { Date: { } date } => Instant.FromDateTimeOffset(date),
                _ => null
            },
            ExpiresAt = response.Content.Headers.Expires is { } expires ? Instant.FromDateTimeOffset(expires) : null,
            LastModified = response.Content.Headers.NonValidated.TryGetValues("Last-Modified", out var values) ? values.FirstOrDefault() : null
        };
    }
}
