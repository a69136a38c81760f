using System.Data.Common;
using Microsoft.Extensions.Options;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Storage.Backup;

/// <summary>The commands <c>backup F</c> and <c>restore F</c>, while the service runs or before it starts.</summary>
public static class BackupCommands
{
    private const string Backup = "backup";
    private const string Restore = "restore";

    public static bool Knows(string name) => name is Backup or Restore;

    /// <returns>The exit code: 0 when everything is saved or brought back.</returns>
    public static async Task<int> RunAsync(string name, IReadOnlyList<string> files, IConfiguration settings, TextWriter output, TextWriter error)
    {
        ArgumentNullException.ThrowIfNull(files);
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(error);
        if (files is not [var file])
            return Refuse(error, $"usage: {name} FILE. Give one file; settings come from config/scheduler.json and the environment.");
        var storage = settings.GetSection("Storage").Get<StorageOptions>() ?? new StorageOptions();
        try
        {
            using var database = new Database(Options.Create(storage));
            database.Migrate();
            if (name == Backup)
            {
                await new BackupWriter(database, storage, ServiceClock.Of(settings)).WriteAsync(file);
                output.WriteLine($"Saved to {file}. It holds secrets: keep it where only you can read it.");
            }
            else
            {
                var rows = await new BackupReader(database, storage).ReadAsync(file);
                output.WriteLine($"Brought back {rows} rows from {file}. If the service is running on a machine that the backup is not from, start it anew: it reads its sealing keys at start.");
            }
            return 0;
        }
        catch (Exception problem) when (problem is BackupException or IOException or UnauthorizedAccessException or InvalidOperationException or DbException)
        {
            return Refuse(error, problem.Message);
        }
    }

    private static int Refuse(TextWriter error, string text)
    {
        error.WriteLine(text);
        return 1;
    }
}
