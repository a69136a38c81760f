using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;
using NodaTime;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Accounts;

/// <summary>
/// Turns <c>Authorization: Bearer key_...</c> into the claims of <see cref="Caller"/>. Every key, well formed or not, is hashed and looked up
/// alike, so timing tells nothing; the database compares hashes, never keys.
/// </summary>
public sealed class BearerKeys(
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory log, UrlEncoder encoder, KeyStore keys, WrongSecrets wrong, IClock clock)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, log, encoder)
{
    public const string SchemeName = "access-key";

    private const string Bearer = "Bearer ";

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var header = Request.Headers.Authorization.ToString();
        if (!header.StartsWith(Bearer, StringComparison.OrdinalIgnoreCase))
            return AuthenticateResult.NoResult();
        var found = await keys.FindAsync(Secrets.Hash(header[Bearer.Length..].Trim()), Context.RequestAborted);
        if (found is null)
            return AuthenticateResult.Fail("This access key is not known.");
        await keys.NoteUseAsync(found, clock.GetCurrentInstant(), Context.RequestAborted);
        var identity = new ClaimsIdentity(
            [new Claim(Caller.AccountClaim, found.AccountId.ToString("N")), new Claim(Caller.KeyClaim, found.Id.ToString("N"))], SchemeName);
        return AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(identity), SchemeName));
    }

    protected override async Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        var shown = Request.Headers.Authorization.Count > 0;
        if (shown && !wrong.Count(Context))
        {
            await Problems.Of(StatusCodes.Status429TooManyRequests).ExecuteAsync(Context);
            return;
        }
        Response.Headers.WWWAuthenticate = "Bearer";
        await Problems.Of(StatusCodes.Status401Unauthorized).ExecuteAsync(Context);
    }
}
