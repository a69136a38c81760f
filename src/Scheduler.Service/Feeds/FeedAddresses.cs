using Scheduler.Service.Hosting;

namespace Scheduler.Service.Feeds;

/// <summary>Where feeds are found from outside.</summary>
public sealed class FeedAddresses(FeedTokens tokens, IConfiguration configuration)
{
    private readonly string? _publicUrl = PublicUrl(configuration);

    /// <summary>Begins with <c>PublicUrl</c>, or with what the request was sent to.</summary>
    public string? Of(Feed feed, HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(feed);
        ArgumentNullException.ThrowIfNull(request);
        return Of(feed, _publicUrl ?? $"{request.Scheme}://{request.Host}");
    }

    /// <summary>For whoever has no request at hand, such as the first start.</summary>
    public string? Of(Feed feed, string baseUrl)
    {
        ArgumentNullException.ThrowIfNull(feed);
        return tokens.Open(feed.TokenSealed) is { } token ? $"{baseUrl}{Api.Root}/calendars/{token}.ics" : null;
    }

    private static string? PublicUrl(IConfiguration configuration)
    {
        if (configuration["PublicUrl"] is not { Length: > 0 } text)
            return null;
        return Uri.TryCreate(text, UriKind.Absolute, out var url) && (url.Scheme is "http" or "https")
            ? text.TrimEnd('/')
            : throw new InvalidOperationException($"PublicUrl is '{text}'. Give a full address, such as https://bonsai.example, or leave it out.");
    }
}
