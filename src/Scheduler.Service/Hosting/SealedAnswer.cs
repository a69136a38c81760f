using System.Security.Cryptography;
using System.Text;

namespace Scheduler.Service.Hosting;

/// <summary>
/// Seals a kept answer, which may hold a new access key or feed address, with a key that only the asker can give again (AES-GCM, key by
/// HKDF-SHA256). The database alone opens nothing.
/// </summary>
internal static class SealedAnswer
{
    private const int NonceBytes = 12;
    private const int TagBytes = 16;

    public static string Close(ReadOnlySpan<byte> answer, string secret)
    {
        var box = new byte[NonceBytes + TagBytes + answer.Length];
        RandomNumberGenerator.Fill(box.AsSpan(0, NonceBytes));
        using var cipher = new AesGcm(KeyOf(secret), TagBytes);
        cipher.Encrypt(box.AsSpan(0, NonceBytes), answer, box.AsSpan(NonceBytes + TagBytes), box.AsSpan(NonceBytes, TagBytes));
        return Convert.ToBase64String(box);
    }

    /// <summary>The answer, or null when the secret is not the one it was sealed with.</summary>
    public static byte[]? Open(string closed, string secret)
    {
        var box = Convert.FromBase64String(closed);
        var answer = new byte[box.Length - NonceBytes - TagBytes];
        using var cipher = new AesGcm(KeyOf(secret), TagBytes);
        try
        {
            cipher.Decrypt(box.AsSpan(0, NonceBytes), box.AsSpan(NonceBytes + TagBytes), box.AsSpan(NonceBytes, TagBytes), answer);
            return answer;
        }
        catch (AuthenticationTagMismatchException)
        {
            return null;
        }
    }

    private static byte[] KeyOf(string secret) =>
        HKDF.DeriveKey(HashAlgorithmName.SHA256, Encoding.UTF8.GetBytes(secret), 32, info: "kept answer"u8.ToArray());
}
