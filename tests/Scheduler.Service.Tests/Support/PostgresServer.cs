using System.Diagnostics;
using Npgsql;

namespace Scheduler.Service.Tests.Support;

/// <summary>
/// A PostgreSQL server of the tests' own, in a temporary folder and reached through a socket in it; started with the first test that
/// needs it and ended with the test run. It will not run as root, so as root it is run as the user that its package made.
/// </summary>
internal sealed class PostgresServer
{
    public const string Absent = "PostgreSQL's programs were not found (Debian's package postgresql brings them).";

    private static readonly Lazy<PostgresServer> Shared = new(() => new PostgresServer());

    private static readonly string? Programs = Directory.Exists("/usr/lib/postgresql")
        ? Directory.EnumerateDirectories("/usr/lib/postgresql").OrderDescending(StringComparer.Ordinal).Select(version => Path.Combine(version, "bin"))
            .FirstOrDefault(bin => File.Exists(Path.Combine(bin, "initdb")))
        : null;

    private readonly string _folder = Directory.CreateTempSubdirectory("scheduler-postgres-").FullName;

    private PostgresServer()
    {
        if (Environment.IsPrivilegedProcess)
            Run("chown", "postgres", _folder);
        AsOwner("initdb", "-D", Data, "-U", "postgres", "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8", "-N");
        AsOwner("pg_ctl", "-D", Data, "-w", "-l", Path.Combine(_folder, "log"), "-o", $"-k {_folder} -c listen_addresses= -c fsync=off -c max_connections=200", "start");
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Stop();
    }

    public static bool IsPresent => Programs is not null;

    private string Data => Path.Combine(_folder, "data");

    /// <summary>A new, empty database.</summary>
    public static string NewDatabase()
    {
        var server = Shared.Value;
        var name = $"t{Guid.NewGuid():N}";
        using var connection = new NpgsqlConnection(server.To("postgres"));
        connection.Open();
        using var command = new NpgsqlCommand($"CREATE DATABASE {name}", connection);
        command.ExecuteNonQuery();
        return server.To(name);
    }

    private string To(string database) => $"Host={_folder};Username=postgres;Database={database};Maximum Pool Size=20;Connection Idle Lifetime=5;Connection Pruning Interval=5";

    private void Stop()
    {
        AsOwner("pg_ctl", "-D", Data, "-m", "immediate", "stop");
        Directory.Delete(_folder, recursive: true);
    }

    private static void AsOwner(string program, params string[] arguments)
    {
        var path = Path.Combine(Programs ?? throw new InvalidOperationException(Absent), program);
        if (Environment.IsPrivilegedProcess)
            Run("runuser", ["-u", "postgres", "--", path, .. arguments]);
        else
            Run(path, arguments);
    }

    private static void Run(string program, params string[] arguments)
    {
        // The server keeps what it inherits open, so nothing of it is read here.
        using var process = Process.Start(new ProcessStartInfo("/bin/sh", ["-c", "exec \"$@\" >/dev/null 2>&1", "sh", program, .. arguments]) { WorkingDirectory = "/" })!;
        process.WaitForExit();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} ended with {process.ExitCode}.");
    }
}

/// <summary>A test that needs a PostgreSQL server; skips with a message where there is none, but not in the build.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class PostgresFactAttribute : FactAttribute
{
    public PostgresFactAttribute()
    {
        if (!PostgresServer.IsPresent && Environment.GetEnvironmentVariable("CI") != "true")
            Skip = PostgresServer.Absent;
    }
}
