using System.Data.Common;
using System.Reflection;
using Dapper;
using DbUp;
using DbUp.Engine.Output;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Options;

namespace Scheduler.Service.Storage;

/// <summary>The only place that knows which database engine is used: opens connections and brings the tables up to date.</summary>
public sealed class Database
{
    private readonly string _connectionString;

    static Database() => TypeHandlers.Register();

    public Database(IOptions<StorageOptions> options)
    {
        ArgumentNullException.ThrowIfNull(options);
        var storage = options.Value;
        if (storage.Provider != "sqlite")
            throw new InvalidOperationException($"Storage:Provider is '{storage.Provider}'. Use 'sqlite'.");
        Directory.CreateDirectory(storage.Folder);
        _connectionString = storage.ConnectionString ?? new SqliteConnectionStringBuilder
        {
            DataSource = Path.Combine(storage.Folder, "scheduler.db"),
            ForeignKeys = true,
            Pooling = true,
            DefaultTimeout = 30
        }.ToString();
    }

    /// <summary>An open connection; dispose it soon.</summary>
    public async Task<DbConnection> OpenAsync(CancellationToken cancel = default)
    {
        var connection = new SqliteConnection(_connectionString);
        await connection.OpenAsync(cancel);
        return connection;
    }

    /// <summary>Applies the numbered migrations that this database has not seen. Each runs in its own transaction.</summary>
    public void Migrate()
    {
        using (var connection = new SqliteConnection(_connectionString))
        {
            connection.Open();
            connection.Execute("PRAGMA journal_mode = WAL");
            if (HasAllMigrations(connection))
                return;
        }
        var result = DeployChanges.To.SqliteDatabase(_connectionString)
            .WithScriptsEmbeddedInAssembly(Assembly.GetExecutingAssembly(), IsMigration)
            .WithTransactionPerScript()
            .LogTo(new NoOpUpgradeLog())
            .Build()
            .PerformUpgrade();
        if (!result.Successful)
            throw new InvalidOperationException($"Migration {result.ErrorScript?.Name} failed.", result.Error);
    }

    // The usual start finds nothing to do; asking the journal itself saves loading the migration engine.
    private static bool HasAllMigrations(SqliteConnection connection)
    {
        if (connection.ExecuteScalar<long>("SELECT COUNT(*) FROM sqlite_master WHERE type = 'table' AND name = 'SchemaVersions'") == 0)
            return false;
        var applied = connection.Query<string>("SELECT ScriptName FROM SchemaVersions").ToHashSet();
        return Assembly.GetExecutingAssembly().GetManifestResourceNames().Where(IsMigration).All(applied.Contains);
    }

    private static bool IsMigration(string resource) => resource.EndsWith(".sql", StringComparison.Ordinal);
}
