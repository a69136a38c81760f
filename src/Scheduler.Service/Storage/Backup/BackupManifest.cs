using NodaTime;

namespace Scheduler.Service.Storage.Backup;

/// <summary>What a backup file holds. An entry's hash is SHA-256 in hexadecimal digits, so that a damaged file is refused before anything is written.</summary>
internal sealed record BackupManifest(string Format, int Version, Instant MadeAt, IReadOnlyList<string> Migrations, IReadOnlyDictionary<string, string> Hashes)
{
    public const string FormatName = "scheduler-backup";
    public const int CurrentVersion = 1;
    public const string Entry = "manifest.json";
    public const string TableFolder = "tables/";
    public const string KeyFolder = "keys/";
}

/// <summary>Why a backup cannot be brought back; the text says what to do.</summary>
internal sealed class BackupException(string message) : Exception(message);
