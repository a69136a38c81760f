using System.Security.Cryptography;
using System.Text;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Hosting;

/// <summary>
/// <c>Idempotency-Key</c> on a POST: the same key and body within a day gives the first answer again. The key is taken in the database
/// before the handler runs, so of two requests at once only one does the work. A request that broke off half-way keeps its key: better
/// a refusal than a second row.
/// </summary>
public sealed class IdempotencyFilter(AnswerStore answers) : IEndpointFilter
{
    public const string Header = "Idempotency-Key";

    private static readonly FaultKind SentBefore = new("sent-before");

    internal const int MaxLength = 255;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(50);

    // Anonymous requests have no secret of their own, so their answers can only be given again until the service stops.
    private static readonly string OwnSecret = Secrets.New("");

    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(next);
        var http = context.HttpContext;
        if (!HttpMethods.IsPost(http.Request.Method) || !http.Request.Headers.TryGetValue(Header, out var given))
            return await next(context);
        var key = given.ToString();
        if (key.Length is 0 or > MaxLength || key.Any(char.IsControl))
        {
            var faults = new FieldFaults();
            faults.Add(Header, $"{Header}: give 1 to {MaxLength} characters, or leave the header out.");
            return Problems.Invalid(faults);
        }
        var caller = Caller.Of(http.User);
        var secret = caller is null ? OwnSecret + key : http.Request.Headers.Authorization.ToString();
        var ticket = new Ticket(caller?.AccountId.ToString("N") ?? $"address {ClientAddress.Of(http)}", Secrets.Hash(key), secret);
        var requestHash = HashOf(http.Request, context.Arguments.OfType<JsonBody>().FirstOrDefault());
        return await answers.TakeAsync(ticket.Scope, ticket.Key, requestHash, http.RequestAborted) is { } earlier
            ? await AgainAsync(http, ticket, earlier, requestHash)
            : await FirstAsync(context, next, ticket);
    }

    private async Task<object?> FirstAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next, Ticket ticket)
    {
        // Once begun the work is finished even if the client hangs up, so that the answer is there when it asks again.
        for (var i = 0; i < context.Arguments.Count; i++)
        {
            if (context.Arguments[i] is CancellationToken)
                context.Arguments[i] = CancellationToken.None;
        }
        var result = (IResult)(await next(context))!;
        var http = context.HttpContext;
        var wire = http.Response.Body;
        using var copy = new MemoryStream();
        http.Response.Body = copy;
        try
        {
            await result.ExecuteAsync(http);
            await http.Response.BodyWriter.FlushAsync();
        }
        finally
        {
            http.Response.Body = wire;
        }
        var bytes = copy.ToArray();
        if (http.Response.StatusCode is >= 400)
            await answers.ReleaseAsync(ticket.Scope, ticket.Key);
        else
            await answers.KeepAsync(ticket.Scope, ticket.Key, http.Response.StatusCode, http.Response.Headers.Location, SealedAnswer.Close(bytes, ticket.Secret));
        await wire.WriteAsync(bytes, http.RequestAborted);
        return Results.Empty;
    }

    private async Task<object?> AgainAsync(HttpContext http, Ticket ticket, StoredAnswer? answer, string requestHash)
    {
        var since = TimeProvider.System.GetTimestamp();
        while (answer is { Status: 0 } && answer.RequestHash == requestHash && TimeProvider.System.GetElapsedTime(since) < Patience)
        {
            await Task.Delay(Pause, http.RequestAborted);
            answer = await answers.FindAsync(ticket.Scope, ticket.Key, http.RequestAborted);
        }
        if (answer is null)
            return Problems.Conflict("The first request with this key was refused while this one waited. Send it again.", SentBefore);
        if (answer.RequestHash != requestHash)
            return Problems.Unprocessable($"This {Header} was used within the last day for another request. Use a new key.", SentBefore);
        if (answer.Status == 0)
            return Problems.Conflict("The first request with this key was not finished. Look whether it took effect, then use a new key.", SentBefore);
        if (SealedAnswer.Open(answer.Body, ticket.Secret) is not { } bytes)
            return Problems.Conflict("The first request with this key took effect, but its answer cannot be shown to this access key.", SentBefore);
        http.Response.StatusCode = (int)answer.Status;
        if (answer.Location is not null)
            http.Response.Headers.Location = answer.Location;
        if (bytes.Length > 0)
            http.Response.ContentType = "application/json; charset=utf-8";
        await http.Response.Body.WriteAsync(bytes, http.RequestAborted);
        return Results.Empty;
    }

    private static string HashOf(HttpRequest request, JsonBody? body)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Encoding.UTF8.GetBytes($"{request.Path}{request.QueryString}\n"));
        hash.AppendData(body is null ? [] : body.Bytes.Span);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    /// <param name="Scope">The account, or for a sign-up the client's address.</param>
    /// <param name="Key">Hash of the idempotency key.</param>
    /// <param name="Secret">What the kept answer is sealed with.</param>
    private sealed record Ticket(string Scope, string Key, string Secret);
}
