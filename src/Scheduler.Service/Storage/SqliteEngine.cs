using System.Data.Common;
using Dapper;
using DbUp;
using DbUp.Builder;
using Microsoft.Data.Sqlite;

namespace Scheduler.Service.Storage;

/// <summary>SQLite: one file, no server. It lets one connection write at a time by itself.</summary>
internal sealed class SqliteEngine : DatabaseEngine
{
    /// <summary>Seconds that a connection waits for its turn to write.</summary>
    private const int BusySeconds = 30;

    private readonly string _connectionString;

    public SqliteEngine(StorageOptions storage)
    {
        Directory.CreateDirectory(storage.Folder);
        _connectionString = storage.ConnectionString ?? new SqliteConnectionStringBuilder
        {
            DataSource = Path.Combine(storage.Folder, "scheduler.db"),
            ForeignKeys = true,
            Pooling = true,
            DefaultTimeout = BusySeconds
        }.ToString();
    }

    public override string CountTable => "SELECT COUNT(*) FROM sqlite_master WHERE type = 'table' AND lower(name) = @name";

    public override DbConnection Connect() => new SqliteConnection(_connectionString);

    public override async Task<DbTransaction> BeginAsync(DbConnection connection, CancellationToken cancel) =>
        await connection.BeginTransactionAsync(cancel);

    // Deferred: it takes a picture with its first question and keeps nobody from writing.
    public override Task<DbTransaction> BeginMomentAsync(DbConnection connection, CancellationToken cancel) =>
        Task.FromResult<DbTransaction>(((SqliteConnection)connection).BeginTransaction(deferred: true));

    public override void Prepare()
    {
        using var connection = Connect();
        connection.Open();
        connection.Execute("PRAGMA journal_mode = WAL");
    }

    public override UpgradeEngineBuilder Upgrade() => DeployChanges.To.SqliteDatabase(_connectionString);
}
