using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace Scheduler.Service.Hosting;

/// <summary>Random secrets of 256 bits and the only form in which they are kept: their SHA-256. So long a secret needs no salt and no slow hash.</summary>
public static class Secrets
{
    private const int Bytes = 32;

    public static string New(string prefix) => prefix + Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(Bytes));

    public static string Hash(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));
}
