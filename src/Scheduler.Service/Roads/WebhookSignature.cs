using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using NodaTime;

namespace Scheduler.Service.Roads;

/// <summary>
/// Signature of a webhook: <c>v1,</c> and the base64 of HMAC-SHA256 over <c>id.timestamp.body</c>, under the secret's bytes. Headers and
/// form are those of the open Standard Webhooks specification.
/// </summary>
public static class WebhookSignature
{
    public const string IdHeader = "webhook-id";
    public const string TimestampHeader = "webhook-timestamp";
    public const string SignatureHeader = "webhook-signature";

    private const string Prefix = "whsec_";
    private const int SecretBytes = 32;

    public static string NewSecret() => Prefix + Convert.ToBase64String(RandomNumberGenerator.GetBytes(SecretBytes));

    public static string Of(string secret, string id, string timestamp, byte[] body)
    {
        ArgumentNullException.ThrowIfNull(secret);
        var signed = (byte[])[.. Encoding.UTF8.GetBytes($"{id}.{timestamp}."), .. body];
        return "v1," + Convert.ToBase64String(HMACSHA256.HashData(Convert.FromBase64String(secret[Prefix.Length..]), signed));
    }

    public static string Timestamp(Instant now) => now.ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture);
}
