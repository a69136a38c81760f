using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.Json;
using Dapper;

namespace Scheduler.Service.Storage.Backup;

/// <summary>Brings a backup back in place of everything that is there: all of it, in one transaction, or nothing.</summary>
internal sealed class BackupReader(Database database, StorageOptions storage)
{
    /// <returns>How many rows came back.</returns>
    public async Task<int> ReadAsync(string path, CancellationToken cancel = default)
    {
        using var archive = Open(path);
        var manifest = await ManifestAsync(archive, path);
        foreach (var (name, hash) in manifest.Hashes)
            await CheckAsync(archive, path, name, hash, cancel);
        await using var connection = await database.OpenAsync(cancel);
        await using var transaction = await database.BeginAsync(connection, cancel);
        foreach (var table in Tables.InOrder.Reverse())
            await connection.ExecuteAsync($"DELETE FROM {table}", transaction: transaction);
        var rows = 0;
        foreach (var table in Tables.InOrder)
        {
            if (archive.GetEntry($"{BackupManifest.TableFolder}{table}.jsonl") is not { } entry)
                continue;
            using var lines = new StreamReader(await entry.OpenAsync(cancel));
            rows += await TableRows.ReadAsync(connection, transaction, table, lines, cancel);
        }
        // The keys first: rows without the keys that open them would be lost, keys without rows do no harm.
        await KeysAsync(archive, cancel);
        await transaction.CommitAsync(cancel);
        return rows;
    }

    private static ZipArchive Open(string path)
    {
        try
        {
            return ZipFile.OpenRead(path);
        }
        catch (InvalidDataException)
        {
            throw Damaged(path);
        }
    }

    private static async Task<BackupManifest> ManifestAsync(ZipArchive archive, string path)
    {
        if (archive.GetEntry(BackupManifest.Entry) is not { } entry)
            throw new BackupException($"{path} is no backup of this service: it has no {BackupManifest.Entry}. Name a file that 'backup' wrote.");
        using var text = new StreamReader(await entry.OpenAsync());
        BackupManifest manifest;
        try
        {
            manifest = Json.Read<BackupManifest>(await text.ReadToEndAsync());
        }
        catch (JsonException)
        {
            throw Damaged(path);
        }
        if (manifest is not { Format: BackupManifest.FormatName, Version: BackupManifest.CurrentVersion, Migrations: not null, Hashes: not null })
            throw new BackupException($"{path} has format '{manifest.Format}' version {manifest.Version}; this program reads '{BackupManifest.FormatName}' version {BackupManifest.CurrentVersion}.");
        if (manifest.Migrations.Except(Database.Migrations).ToList() is { Count: > 0 } unknown)
            throw new BackupException($"{path} was made by a newer version ({string.Join(", ", unknown)}). Bring it back with that version or a later one.");
        return manifest;
    }

    private static async Task CheckAsync(ZipArchive archive, string path, string name, string hash, CancellationToken cancel)
    {
        if (archive.GetEntry(name) is not { } entry)
            throw Damaged(path);
        try
        {
            await using var stream = await entry.OpenAsync(cancel);
            if (Convert.ToHexStringLower(await SHA256.HashDataAsync(stream, cancel)) != hash)
                throw Damaged(path);
        }
        catch (InvalidDataException)
        {
            throw Damaged(path);
        }
    }

    private async Task KeysAsync(ZipArchive archive, CancellationToken cancel)
    {
        foreach (var entry in archive.Entries.Where(entry => entry.FullName.StartsWith(BackupManifest.KeyFolder, StringComparison.Ordinal)))
            await entry.ExtractToFileAsync(Path.Combine(storage.MakeKeyFolder().FullName, entry.Name), overwrite: true, cancel);
    }

    private static BackupException Damaged(string path) => new($"{path} is damaged or no backup of this service. Nothing was changed; take another copy.");
}
