using System.Buffers.Binary;
using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Scheduler.Service.Tests.Roads.Support;

/// <summary>
/// The browser's side of Web Push, written from RFC 8291 section 3.4 and RFC 8188 section 2 with the base library only, so that no code
/// of the sender or its library takes part in reading.
/// </summary>
internal sealed class Browser
{
    private readonly ECDiffieHellman _key;
    private readonly byte[] _auth;

    public Browser()
        : this(ECDiffieHellman.Create(ECCurve.NamedCurves.nistP256), RandomNumberGenerator.GetBytes(16))
    {
    }

    private Browser(ECDiffieHellman key, byte[] auth) => (_key, _auth) = (key, auth);

    public static Browser Of(string publicKey, string privateKey, string auth)
    {
        var key = ECDiffieHellman.Create(new ECParameters
        {
            Curve = ECCurve.NamedCurves.nistP256,
            Q = Point(Base64Url.DecodeFromChars(publicKey)),
            D = Base64Url.DecodeFromChars(privateKey)
        });
        return new Browser(key, Base64Url.DecodeFromChars(auth));
    }

    public JsonObject Subscription(Uri endpoint) => new()
    {
        ["endpoint"] = endpoint.AbsoluteUri,
        ["expirationTime"] = null,
        ["keys"] = new JsonObject { ["p256dh"] = Base64Url.EncodeToString(PublicKey()), ["auth"] = Base64Url.EncodeToString(_auth) }
    };

    /// <summary>The text of a body in the coding aes128gcm.</summary>
    public string Read(byte[] body)
    {
        // Header: salt (16), record size (4), length of the key id (1), key id: the sender's public key (RFC 8188 section 2.1).
        var salt = body.AsSpan(0, 16).ToArray();
        var recordSize = BinaryPrimitives.ReadUInt32BigEndian(body.AsSpan(16, 4));
        int idLength = body[20];
        var sender = body.AsSpan(21, idLength).ToArray();
        var cipher = body.AsSpan(21 + idLength).ToArray();
        Assert.Equal(65, idLength);
        Assert.InRange(cipher.Length, 18, (int)recordSize);

        using var senderKey = ECDiffieHellman.Create(new ECParameters { Curve = ECCurve.NamedCurves.nistP256, Q = Point(sender) });
        var shared = _key.DeriveRawSecretAgreement(senderKey.PublicKey);
        // RFC 8291 section 3.4: IKM = HKDF(auth_secret, ecdh_secret, "WebPush: info" || 0x00 || ua_public || as_public, 32).
        var ikm = HKDF.DeriveKey(HashAlgorithmName.SHA256, shared, 32, _auth, [.. "WebPush: info\0"u8, .. PublicKey(), .. sender]);
        var key = HKDF.DeriveKey(HashAlgorithmName.SHA256, ikm, 16, salt, "Content-Encoding: aes128gcm\0"u8.ToArray());
        var nonce = HKDF.DeriveKey(HashAlgorithmName.SHA256, ikm, 12, salt, "Content-Encoding: nonce\0"u8.ToArray());
        var plain = new byte[cipher.Length - 16];
        using var gcm = new AesGcm(key, 16);
        gcm.Decrypt(nonce, cipher.AsSpan(0, plain.Length), cipher.AsSpan(plain.Length), plain);
        // The last record ends with 0x02 and any number of zeros.
        var end = Array.FindLastIndex(plain, one => one != 0);
        Assert.Equal(2, plain[end]);
        return Encoding.UTF8.GetString(plain, 0, end);
    }

    /// <summary>Checks who sent it (RFC 8292): gives the token's claims once its signature under the key named with it holds.</summary>
    public static JsonElement Claims(string authorization, string expectedKey)
    {
        Assert.StartsWith("vapid ", authorization, StringComparison.Ordinal);
        var parts = authorization["vapid ".Length..].Split(',').Select(part => part.Trim().Split('=', 2)).ToDictionary(part => part[0], part => part[1].Trim('"'));
        Assert.Equal(expectedKey, parts["k"].TrimEnd('='));
        var token = parts["t"].Split('.');
        Assert.Equal("ES256", JsonDocument.Parse(Base64Url.DecodeFromChars(token[0])).RootElement.GetProperty("alg").GetString());
        using var key = ECDsa.Create(new ECParameters { Curve = ECCurve.NamedCurves.nistP256, Q = Point(Base64Url.DecodeFromChars(parts["k"])) });
        Assert.True(key.VerifyData(
            Encoding.ASCII.GetBytes($"{token[0]}.{token[1]}"), Base64Url.DecodeFromChars(token[2]), HashAlgorithmName.SHA256, DSASignatureFormat.IeeeP1363FixedFieldConcatenation));
        return JsonDocument.Parse(Base64Url.DecodeFromChars(token[1])).RootElement;
    }

    private byte[] PublicKey()
    {
        var point = _key.ExportParameters(includePrivateParameters: false).Q;
        return [4, .. point.X!, .. point.Y!];
    }

    private static ECPoint Point(byte[] bytes) => new() { X = bytes[1..33], Y = bytes[33..65] };
}
