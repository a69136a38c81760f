using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using System.Text;

namespace Scheduler.Domain.Techniques.Promises;

/// <summary>
/// Names a promise by what it follows from and what it is (UUID version 5, RFC 9562 section 5.5), so that it needs no
/// row of its own to stay the same.
/// </summary>
public static class PromiseId
{
    private static readonly Guid Space = new("5b0a7c52-6a0e-4f5d-9d8e-2a4c1c9b7e31");

    [SuppressMessage("Security", "CA5350:Do Not Use Weak Cryptographic Algorithms", Justification = "Version 5 ids are defined by SHA-1; nothing secret hangs on it.")]
    public static Guid Of(Guid workId, string what, string? technique)
    {
        var name = Encoding.UTF8.GetBytes($"{workId:D}/{what}/{technique}");
        Span<byte> text = stackalloc byte[16 + name.Length];
        Space.TryWriteBytes(text, bigEndian: true, out _);
        name.CopyTo(text[16..]);
        Span<byte> hash = stackalloc byte[SHA1.HashSizeInBytes];
        SHA1.HashData(text, hash);
        hash[6] = (byte)(hash[6] & 0x0F | 0x50);
        hash[8] = (byte)(hash[8] & 0x3F | 0x80);
        return new Guid(hash[..16], bigEndian: true);
    }
}
