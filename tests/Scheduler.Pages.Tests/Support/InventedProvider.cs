using System.Collections.Concurrent;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;

namespace Scheduler.Pages.Tests.Support;

/// <summary>
/// A small OpenID Connect provider on this machine that lets everybody in as <see cref="Subject"/>: discovery, authorization, tokens signed
/// with ES256, keys. It checks what a provider must: client, redirect address and the proof of PKCE (RFC 7636).
/// </summary>
public sealed class InventedProvider : IAsyncDisposable
{
    public const string ClientId = "scheduler";
    public const string ClientSecret = "invented secret";

    private readonly ConcurrentDictionary<string, (string Nonce, string Challenge, string Redirect)> _codes = new();
    private readonly ECDsa _key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
    private readonly WebApplication _app;

    private InventedProvider(WebApplication app) => _app = app;

    public string Subject { get; set; } = "subject-1";

    public string Issuer { get; private set; } = "";

    /// <summary>Signs with a key that is not published.</summary>
    public bool ForgesTokens { get; set; }

    public static async Task<InventedProvider> StartAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Logging.ClearProviders();
        var app = builder.Build();
        var provider = new InventedProvider(app);
        app.MapGet("/.well-known/openid-configuration", () => new
        {
            issuer = provider.Issuer, authorization_endpoint = provider.Issuer + "/authorize", token_endpoint = provider.Issuer + "/token",
            jwks_uri = provider.Issuer + "/jwks", response_types_supported = new[] { "code" }, subject_types_supported = new[] { "public" },
            id_token_signing_alg_values_supported = new[] { "ES256" }
        });
        app.MapGet("/jwks", provider.Keys);
        app.MapGet("/authorize", provider.Authorize);
        app.MapPost("/token", provider.TokenAsync);
        await app.StartAsync();
        provider.Issuer = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
        return provider;
    }

    public async ValueTask DisposeAsync()
    {
        await _app.DisposeAsync();
        _key.Dispose();
    }

    private IResult Keys()
    {
        var point = _key.ExportParameters(false).Q;
        return Results.Json(new { keys = new[] { new { kty = "EC", use = "sig", crv = "P-256", kid = "one", alg = "ES256", x = Base64UrlEncoder.Encode(point.X), y = Base64UrlEncoder.Encode(point.Y) } } });
    }

    private IResult Authorize(HttpRequest request)
    {
        string Asked(string name) => request.Query[name].ToString();
        if (Asked("client_id") != ClientId || Asked("response_type") != "code" || Asked("code_challenge_method") != "S256" || !Asked("scope").Contains("openid", StringComparison.Ordinal))
            return Results.BadRequest();
        var code = Guid.NewGuid().ToString("N");
        _codes[code] = (Asked("nonce"), Asked("code_challenge"), Asked("redirect_uri"));
        return Results.Redirect($"{Asked("redirect_uri")}?code={code}&state={WebUtility.UrlEncode(Asked("state"))}");
    }

    private async Task<IResult> TokenAsync(HttpRequest request)
    {
        var form = await request.ReadFormAsync();
        // A code counts once.
        if (!_codes.TryRemove(form["code"].ToString(), out var asked) || asked.Redirect != form["redirect_uri"] || form["client_id"] != ClientId || form["client_secret"] != ClientSecret
            || Base64UrlEncoder.Encode(SHA256.HashData(Encoding.ASCII.GetBytes(form["code_verifier"].ToString()))) != asked.Challenge)
        {
            return Results.Json(new { error = "invalid_grant" }, statusCode: StatusCodes.Status400BadRequest);
        }
        using var other = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var key = new ECDsaSecurityKey(ForgesTokens ? other : _key) { KeyId = "one", CryptoProviderFactory = new CryptoProviderFactory { CacheSignatureProviders = false } };
        var token = new JsonWebTokenHandler().CreateToken(new SecurityTokenDescriptor
        {
            Issuer = Issuer, Audience = ClientId, Expires = DateTime.UtcNow.AddMinutes(5), SigningCredentials = new SigningCredentials(key, SecurityAlgorithms.EcdsaSha256),
            Claims = new Dictionary<string, object> { ["sub"] = Subject, ["nonce"] = asked.Nonce, ["name"] = "Invented <b>Person" }
        });
        return Results.Json(new { access_token = "unused", token_type = "Bearer", expires_in = 300, id_token = token });
    }
}
