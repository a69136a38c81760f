using System.IO.Compression;
using System.Security.Cryptography;
using NodaTime;

namespace Scheduler.Service.Storage.Backup;

/// <summary>
/// Saves everything as it is at one moment, while others go on writing: the rows of all tables, and the keys that seal addresses and
/// secrets. The file belongs to no engine, so it also moves a service from SQLite to PostgreSQL. It holds secrets: keep it like a key.
/// </summary>
internal sealed class BackupWriter(Database database, StorageOptions storage, IClock clock)
{
    public async Task WriteAsync(string path, CancellationToken cancel = default)
    {
        var unfinished = $"{path}.unfinished";
        try
        {
            await using (var file = Create(unfinished))
                await WriteAsync(file, cancel);
            File.Move(unfinished, path, overwrite: true);
        }
        finally
        {
            File.Delete(unfinished);
        }
    }

    private async Task WriteAsync(Stream file, CancellationToken cancel)
    {
        using var archive = new ZipArchive(file, ZipArchiveMode.Create);
        var hashes = new SortedDictionary<string, string>(StringComparer.Ordinal);
        await using var connection = await database.OpenAsync(cancel);
        await using var moment = await database.BeginMomentAsync(connection, cancel);
        foreach (var table in Tables.InOrder)
        {
            await AddAsync(archive, hashes, $"{BackupManifest.TableFolder}{table}.jsonl", async stream =>
            {
                await using var lines = new StreamWriter(stream, leaveOpen: true);
                await TableRows.WriteAsync(connection, moment, table, lines, cancel);
            });
        }
        if (Directory.Exists(storage.KeyFolder))
        {
            foreach (var key in Directory.EnumerateFiles(storage.KeyFolder).Order(StringComparer.Ordinal))
            {
                await AddAsync(archive, hashes, BackupManifest.KeyFolder + Path.GetFileName(key), async stream =>
                {
                    await using var bytes = File.OpenRead(key);
                    await bytes.CopyToAsync(stream, cancel);
                });
            }
        }
        var manifest = new BackupManifest(
            BackupManifest.FormatName, BackupManifest.CurrentVersion, clock.GetCurrentInstant(), Database.Migrations, hashes);
        await using var entry = archive.CreateEntry(BackupManifest.Entry).Open();
        await using var text = new StreamWriter(entry);
        await text.WriteAsync(Json.Write(manifest));
    }

    private static async Task AddAsync(ZipArchive archive, SortedDictionary<string, string> hashes, string name, Func<Stream, Task> write)
    {
        await using var entry = archive.CreateEntry(name, CompressionLevel.Fastest).Open();
        using var hash = SHA256.Create();
        await using (var hashed = new CryptoStream(entry, hash, CryptoStreamMode.Write, leaveOpen: true))
            await write(hashed);
        hashes[name] = Convert.ToHexStringLower(hash.Hash!);
    }

    private static FileStream Create(string path)
    {
        var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        return new FileStream(path, options);
    }
}
