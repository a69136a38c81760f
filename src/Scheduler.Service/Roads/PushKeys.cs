using System.Buffers.Text;
using System.Security.Cryptography;
using Microsoft.Extensions.Options;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Roads;

/// <summary>
/// The key pair by which push services know this host (VAPID, RFC 8292; P-256). Made on first use and kept beside the sealing keys:
/// browsers subscribe to the public key, so a new pair would end every subscription.
/// </summary>
public sealed class PushKeys(IOptions<StorageOptions> storage)
{
    private const string FileName = "push.json";

    private readonly Lazy<Pair> _pair = new(() => ReadOrMake(Path.Combine(storage.Value.Folder, "keys")));

    /// <summary>Uncompressed point, base64url, as a browser's <c>applicationServerKey</c> takes it.</summary>
    public string PublicKey => _pair.Value.PublicKey;

    /// <summary>Scalar, base64url.</summary>
    internal string PrivateKey => _pair.Value.PrivateKey;

    private static Pair ReadOrMake(string folder)
    {
        var path = Path.Combine(folder, FileName);
        if (!File.Exists(path))
        {
            Make(folder, path);
        }
        return Json.Read<Pair>(File.ReadAllText(path));
    }

    private static void Make(string folder, string path)
    {
        Directory.CreateDirectory(folder);
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var parameters = key.ExportParameters(includePrivateParameters: true);
        byte[] point = [4, .. parameters.Q.X!, .. parameters.Q.Y!];
        var made = Path.Combine(folder, $"{FileName}.{Guid.NewGuid():N}");
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using (var writer = new StreamWriter(made, options))
            writer.Write(Json.Write(new Pair(Base64Url.EncodeToString(point), Base64Url.EncodeToString(parameters.D!))));
        try
        {
            // Whole or not at all; of two first starts at once, both go on with the pair that was there first.
            File.Move(made, path, overwrite: false);
        }
        catch (IOException) when (File.Exists(path))
        {
            File.Delete(made);
        }
    }

    private sealed record Pair(string PublicKey, string PrivateKey)
    {
        public override string ToString() => nameof(Pair);
    }
}
