using System.Security.Cryptography;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.DataProtection;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Roads;

/// <summary>Where a road ends. Kept sealed: an address is personal, and who knows an endpoint with its keys can write to it.</summary>
[JsonDerivedType(typeof(MailTarget), "email")]
[JsonDerivedType(typeof(PushTarget), "push")]
[JsonDerivedType(typeof(WebhookTarget), "webhook")]
public abstract record RoadTarget
{
    // A record prints what it holds, and this must not get into a log by accident.
    public sealed override string ToString() => GetType().Name;
}

/// <param name="LeaveToken">The secret of the address that ends the mails; every mail carries it.</param>
public sealed record MailTarget(string Address, string LeaveToken) : RoadTarget;

/// <summary>A browser's subscription (RFC 8030, RFC 8291).</summary>
/// <param name="P256dh">The browser's public key, base64url.</param>
/// <param name="Auth">The browser's authentication secret, base64url.</param>
public sealed record PushTarget(string Endpoint, string P256dh, string Auth) : RoadTarget;

/// <param name="Secret">What bodies are signed with, as its owner sees it once.</param>
public sealed record WebhookTarget(string Url, string Secret) : RoadTarget;

/// <summary>Seals targets with keys that lie outside the database, so that a stolen database opens nothing.</summary>
public sealed class RoadSeal(IDataProtectionProvider protection)
{
    private readonly IDataProtector _seal = protection.CreateProtector("road-target");

    public string Close(RoadTarget target) => _seal.Protect(Json.Write(target));

    /// <summary>Null when the sealing keys are lost, as after a restore of the database alone: the road must be set up again.</summary>
    public RoadTarget? Open(string closed)
    {
        try
        {
            return Json.Read<RoadTarget>(_seal.Unprotect(closed));
        }
        catch (CryptographicException)
        {
            return null;
        }
    }
}
