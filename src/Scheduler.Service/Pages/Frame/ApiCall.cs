using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Pages.Frame;

/// <summary>
/// Hands what a form says to the handler that serves the same thing in the API, within this process and without a network: one set of
/// rules, faults and idempotency for both. The handler sees the owner who is signed in on the page.
/// </summary>
public sealed partial class ApiCall(EndpointDataSource endpoints, IHttpContextAccessor accessor)
{
    private const string Json = "application/json";

    private readonly Lazy<Dictionary<(string Method, string Pattern), RouteEndpoint>> _byPattern = new(() => ByPattern(endpoints));

    /// <param name="pattern">The route as the API declares it, without <c>/api/v1</c>, such as <c>/trees/{id:guid}/work</c>.</param>
    /// <param name="values">Values of the route, in order.</param>
    public Task<ApiAnswer> PostAsync(string pattern, JsonObject body, FormBody form, params object[] values)
    {
        ArgumentNullException.ThrowIfNull(body);
        ArgumentNullException.ThrowIfNull(form);
        return SendAsync(HttpMethods.Post, pattern, Bytes(body), Json, form.Key, values);
    }

    /// <summary>A file as it was chosen, read by the handler itself.</summary>
    public Task<ApiAnswer> PostFileAsync(string pattern, byte[] file, string type, FormBody form, params object[] values)
    {
        ArgumentNullException.ThrowIfNull(form);
        return SendAsync(HttpMethods.Post, pattern, file, type, form.Key, values);
    }

    /// <inheritdoc cref="PostFileAsync"/>
    public Task<ApiAnswer> PutFileAsync(string pattern, byte[] file, string type, params object[] values) =>
        SendAsync(HttpMethods.Put, pattern, file, type, "", values);

    public Task<ApiAnswer> PatchAsync(string pattern, JsonObject body, params object[] values) => SendAsync(HttpMethods.Patch, pattern, Bytes(body), Json, "", values);

    public Task<ApiAnswer> PutAsync(string pattern, JsonObject body, params object[] values) => SendAsync(HttpMethods.Put, pattern, Bytes(body), Json, "", values);

    public Task<ApiAnswer> DeleteAsync(string pattern, params object[] values) => SendAsync(HttpMethods.Delete, pattern, [], Json, "", values);

    private static byte[] Bytes(JsonObject body) => Encoding.UTF8.GetBytes(body.ToJsonString());

    private async Task<ApiAnswer> SendAsync(string method, string pattern, byte[] bytes, string type, string key, object[] values)
    {
        var endpoint = _byPattern.Value[(method, Api.Root + pattern)];
        var page = accessor.HttpContext!;
        var inner = new DefaultHttpContext { RequestServices = page.RequestServices, User = page.User, RequestAborted = page.RequestAborted };
        inner.Connection.RemoteIpAddress = page.Connection.RemoteIpAddress;
        inner.Request.Method = method;
        inner.Request.Scheme = page.Request.Scheme;
        inner.Request.Host = page.Request.Host;
        inner.Request.Path = Api.Root + Filled(pattern, values, inner.Request.RouteValues);
        inner.Request.ContentType = type;
        inner.Request.ContentLength = bytes.Length;
        inner.Request.Body = new MemoryStream(bytes);
        if (key.Length > 0)
        {
            // The same form with other values is another request: after going back and correcting, it counts anew.
            inner.Request.Headers[IdempotencyFilter.Header] = Secrets.Hash($"{key}\n{inner.Request.Path}\n{Convert.ToHexString(SHA256.HashData(bytes))}");
            // What kept answers are sealed with: only who holds the form can open them again.
            inner.Request.Headers.Authorization = "Form " + key;
        }
        using var answer = new MemoryStream();
        inner.Response.Body = answer;
        inner.SetEndpoint(endpoint);
        await endpoint.RequestDelegate!(inner);
        await inner.Response.CompleteAsync();
        return ApiAnswer.Of(inner.Response.StatusCode, answer.ToArray(), page.RequestServices.GetRequiredService<PageContext>());
    }

    private static string Filled(string pattern, object[] values, RouteValueDictionary route)
    {
        var next = 0;
        return Part().Replace(pattern, part =>
        {
            var value = values[next++].ToString()!;
            route[part.Groups[1].Value] = value;
            return Uri.EscapeDataString(value);
        });
    }

    private static Dictionary<(string, string), RouteEndpoint> ByPattern(EndpointDataSource endpoints) => (
        from endpoint in endpoints.Endpoints.OfType<RouteEndpoint>()
        let pattern = endpoint.RoutePattern.RawText
        where pattern is not null && pattern.StartsWith(Api.Root, StringComparison.Ordinal)
        from method in endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? []
        select (Key: (method, pattern), endpoint)).DistinctBy(entry => entry.Key).ToDictionary(entry => entry.Key, entry => entry.endpoint);

    [GeneratedRegex(@"\{(\w+)(?::\w+)?\}")]
    private static partial Regex Part();
}

/// <summary>What the API's handler answered.</summary>
/// <param name="Body">Null when it has none.</param>
/// <param name="Faults">By field of the JSON, in the owner's language where there are words for them; empty when none was found.</param>
/// <param name="Detail">Why it was refused, in words.</param>
public sealed record ApiAnswer(int Status, JsonElement? Body, IReadOnlyDictionary<string, string[]> Faults, string? Detail)
{
    /// <summary>Fields of which something is said in the API's English.</summary>
    public IReadOnlySet<string> InEnglish { get; private init; } = new HashSet<string>();

    /// <summary>The detail is in the API's English.</summary>
    public bool IsDetailInEnglish { get; private init; }

    public bool IsTaken => Status < 400;

    public Guid Id => Body!.Value.GetProperty("id").GetGuid();

    internal static ApiAnswer Of(int status, byte[] bytes, PageContext page)
    {
        var body = bytes.Length == 0 ? (JsonElement?)null : JsonDocument.Parse(bytes).RootElement;
        var faults = status >= 400 && body?.TryGetProperty("errors", out var errors) == true
            ? errors.EnumerateObject().ToDictionary(field => field.Name, field => field.Value.EnumerateArray().Select(text => text.GetString()!).ToArray())
            : [];
        var english = new HashSet<string>();
        foreach (var (field, texts) in faults)
        {
            for (var index = 0; index < texts.Length; index++)
            {
                if (FaultWords.Of(page, field, body!.Value.GetProperty("kinds").GetProperty(field)[index]) is { } words)
                    texts[index] = words;
                else
                    english.Add(field);
            }
            // Two faults may be the same in the owner's words.
            faults[field] = [.. texts.Distinct()];
        }
        if (status < 400)
            return new ApiAnswer(status, body, faults, null);
        var said = FaultWords.Refusal(page, status, body);
        var detail = said ?? (body?.TryGetProperty("detail", out var text) == true ? text.GetString() : null);
        return new ApiAnswer(status, body, faults, detail) { InEnglish = english, IsDetailInEnglish = said is null };
    }
}
