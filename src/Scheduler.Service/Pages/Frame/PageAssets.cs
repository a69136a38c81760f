using System.Collections.Frozen;
using System.IO.Compression;
using System.Security.Cryptography;

namespace Scheduler.Service.Pages.Frame;

/// <summary>
/// The style sheet, the script and the icons. They live within the program, so they are there from whatever folder it is started;
/// their addresses carry a print of their content, so a browser keeps them for good.
/// </summary>
public static class PageAssets
{
    private const string Prefix = "assets/";

    private static readonly FrozenDictionary<string, Asset> All = typeof(PageAssets).Assembly.GetManifestResourceNames()
        .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal))
        .ToFrozenDictionary(name => name[Prefix.Length..], Read);

    public static string Url(string name) => $"/assets/{All[name].Print}/{name}";

    /// <summary>Content of a small asset, for addresses that cannot carry a print (manifest, service worker).</summary>
    internal static IResult Plain(string name) => new AssetResult(All[name], false);

    public static void MapAssets(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/assets/{print}/{name}", (string print, string name) =>
            All.TryGetValue(name, out var asset) && asset.Print == print ? (IResult)new AssetResult(asset, true) : TypedResults.NotFound())
            .AllowAnonymous().ExcludeFromDescription();

    private static Asset Read(string resource)
    {
        using var stream = typeof(PageAssets).Assembly.GetManifestResourceStream(resource)!;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        var type = Path.GetExtension(resource) switch
        {
            ".css" => "text/css; charset=utf-8",
            ".js" => "text/javascript; charset=utf-8",
            ".svg" => "image/svg+xml",
            ".png" => "image/png",
            ".webmanifest" => "application/manifest+json",
            var other => throw new InvalidOperationException($"No content type is known for an asset that ends in {other}.")
        };
        return new Asset(bytes, type == "image/png" ? null : Squeezed(bytes), type, Convert.ToHexStringLower(SHA256.HashData(bytes))[..16]);
    }

    private static byte[] Squeezed(byte[] bytes)
    {
        using var small = new MemoryStream();
        using (var brotli = new BrotliStream(small, CompressionLevel.SmallestSize))
            brotli.Write(bytes);
        return small.ToArray();
    }

    private sealed record Asset(byte[] Bytes, byte[]? Brotli, string Type, string Print);

    private sealed class AssetResult(Asset asset, bool isForGood) : IResult
    {
        public Task ExecuteAsync(HttpContext httpContext)
        {
            var (request, response) = (httpContext.Request, httpContext.Response);
            response.ContentType = asset.Type;
            response.Headers.CacheControl = isForGood ? "public, max-age=31536000, immutable" : "no-cache";
            response.Headers.Vary = "Accept-Encoding";
            var bytes = asset.Bytes;
            if (asset.Brotli is not null && request.Headers.AcceptEncoding.ToString().Contains("br", StringComparison.Ordinal))
            {
                response.Headers.ContentEncoding = "br";
                bytes = asset.Brotli;
            }
            response.ContentLength = bytes.Length;
            return response.Body.WriteAsync(bytes, httpContext.RequestAborted).AsTask();
        }
    }
}
