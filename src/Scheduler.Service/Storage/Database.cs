using System.Data.Common;
using System.Reflection;
using Dapper;
using DbUp.Engine.Output;
using Microsoft.Extensions.Options;

namespace Scheduler.Service.Storage;

/// <summary>Opens connections and transactions, and brings the tables up to date.</summary>
public sealed class Database : IDisposable
{
    private readonly DatabaseEngine _engine;

    static Database() => TypeHandlers.Register();

    public Database(IOptions<StorageOptions> options)
    {
        ArgumentNullException.ThrowIfNull(options);
        _engine = DatabaseEngine.Of(options.Value);
    }

    /// <summary>Names of the numbered migrations in their order.</summary>
    internal static IReadOnlyList<string> Migrations { get; } =
        [.. Assembly.GetExecutingAssembly().GetManifestResourceNames().Where(IsMigration).Order(StringComparer.Ordinal)];

    /// <summary>An open connection; dispose it soon.</summary>
    public async Task<DbConnection> OpenAsync(CancellationToken cancel = default)
    {
        var connection = _engine.Connect();
        await connection.OpenAsync(cancel);
        return connection;
    }

    /// <summary>A transaction that writes: one at a time, and what it reads nobody changes before it ends.</summary>
    public Task<DbTransaction> BeginAsync(DbConnection connection, CancellationToken cancel = default) => _engine.BeginAsync(connection, cancel);

    /// <summary>A transaction that only reads, everything as it was at one moment.</summary>
    public Task<DbTransaction> BeginMomentAsync(DbConnection connection, CancellationToken cancel = default) => _engine.BeginMomentAsync(connection, cancel);

    /// <summary>Applies the numbered migrations that this database has not seen. Each runs in its own transaction.</summary>
    public void Migrate()
    {
        _engine.Prepare();
        using (var connection = _engine.Connect())
        {
            connection.Open();
            // The usual start finds nothing to do; asking the journal itself saves loading the migration engine.
            if (Migrations.All(Applied(connection).Contains))
                return;
        }
        var result = _engine.Upgrade()
            .WithScriptsEmbeddedInAssembly(Assembly.GetExecutingAssembly(), IsMigration)
            .WithTransactionPerScript()
            .LogTo(new NoOpUpgradeLog())
            .Build()
            .PerformUpgrade();
        if (!result.Successful)
            throw new InvalidOperationException($"Migration {result.ErrorScript?.Name} failed.", result.Error);
    }

    public void Dispose() => (_engine as IDisposable)?.Dispose();

    private HashSet<string> Applied(DbConnection connection) =>
        connection.ExecuteScalar<long>(_engine.CountTable, new { name = "schemaversions" }) == 0
            ? []
            : [.. connection.Query<string>("SELECT ScriptName FROM SchemaVersions")];

    private static bool IsMigration(string resource) => resource.EndsWith(".sql", StringComparison.Ordinal);
}
