using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Feeds;

/// <summary>
/// The secret in a feed's address. The database keeps its SHA-256, to find the feed, and a sealed copy, to show the
/// owner the address again; the sealing keys are files outside the database, so a stolen database opens nothing.
/// </summary>
public sealed class FeedTokens(IDataProtectionProvider protection)
{
    /// <summary>256 bits in base64url.</summary>
    public const int Length = 43;

    private readonly IDataProtector _seal = protection.CreateProtector("feed-token");

    public static string New() => Secrets.New("");

    public static string Hash(string token) => Secrets.Hash(token);

    public string Seal(string token) => _seal.Protect(token);

    /// <summary>Null when the sealing keys are lost, as after a restore of the database alone: the feed still answers
    /// at its old address, and a rotation gives it a new one.</summary>
    public string? Open(string sealedToken)
    {
        try
        {
            return _seal.Unprotect(sealedToken);
        }
        catch (CryptographicException)
        {
            return null;
        }
    }
}
