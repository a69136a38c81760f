using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Scheduler.Service.Hosting;

/// <summary>
/// The body of a request as a JSON object, read up to a cap. What cannot be read is answered by <see cref="RequestChecks"/> before the
/// handler runs, so a handler only ever sees an object.
/// </summary>
public sealed class JsonBody
{
    /// <summary>Most bytes of a body, unless the endpoint says otherwise with <see cref="BodyCap"/>.</summary>
    public const int UsualCap = 64 * 1024;

    private const int MaxDepth = 16;

    private readonly JsonElement _root;

    private JsonBody(ReadOnlyMemory<byte> bytes, JsonElement root, ProblemHttpResult? refusal)
    {
        Bytes = bytes;
        _root = root;
        Refusal = refusal;
    }

    public ReadOnlyMemory<byte> Bytes { get; }

    public ProblemHttpResult? Refusal { get; }

    public FieldReader Fields() => new(_root, "", new FieldFaults());

    /// <summary>Called by the framework to bind a handler's parameter.</summary>
    public static async ValueTask<JsonBody?> BindAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        var cap = context.GetEndpoint()?.Metadata.GetMetadata<BodyCap>()?.Bytes ?? UsualCap;
        if (await ReadAsync(context.Request, cap, context.RequestAborted) is not { } bytes)
            return Refused(Problems.TooLarge(cap));
        return Parse(bytes);
    }

    /// <summary>A body that came another way, such as a file of a form.</summary>
    public static JsonBody Parse(byte[] bytes)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        if (bytes.AsSpan().StartsWith(Encoding.UTF8.Preamble))
            bytes = bytes[3..];
        try
        {
            var reader = new Utf8JsonReader(bytes, new JsonReaderOptions { MaxDepth = MaxDepth });
            // Reading every text finds escapes that form no character, which would otherwise surface field by field.
            while (reader.Read())
            {
                if (reader.TokenType is JsonTokenType.String or JsonTokenType.PropertyName)
                    _ = reader.GetString();
            }
            using var document = JsonDocument.Parse(bytes, new JsonDocumentOptions { MaxDepth = MaxDepth, AllowDuplicateProperties = false });
            return document.RootElement.ValueKind is JsonValueKind.Object
                ? new JsonBody(bytes, document.RootElement.Clone(), null)
                : Refused(Problems.Unreadable("it must be an object in braces."));
        }
        catch (JsonException fault)
        {
            return Refused(Problems.Unreadable(bytes.Length == 0 ? "it is empty. Send an object in braces." : Where(fault)));
        }
        catch (InvalidOperationException)
        {
            return Refused(Problems.Unreadable("a text in it holds an escape or bytes that form no character."));
        }
    }

    // The parser's own message may quote the body at any length, so only what and where is passed on.
    private static string Where(JsonException fault) => fault.Message.Contains("Duplicate", StringComparison.OrdinalIgnoreCase)
        ? "a field is given twice in one object."
        : $"there is a mistake at line {fault.LineNumber + 1}, byte {fault.BytePositionInLine + 1}.";

    private static JsonBody Refused(ProblemHttpResult refusal) => new(default, default, refusal);

    private static async Task<byte[]?> ReadAsync(HttpRequest request, int cap, CancellationToken cancel)
    {
        if (request.ContentLength > cap)
            return null;
        using var kept = new MemoryStream();
        var part = new byte[8192];
        int read;
        while ((read = await request.Body.ReadAsync(part, cancel)) > 0)
        {
            if (kept.Length + read > cap)
                return null;
            kept.Write(part, 0, read);
        }
        return kept.ToArray();
    }
}

/// <summary>Endpoint metadata: the most bytes its body may have.</summary>
public sealed record BodyCap(int Bytes);
