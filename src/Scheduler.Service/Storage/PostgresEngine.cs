using System.Data;
using System.Data.Common;
using System.Text.RegularExpressions;
using Dapper;
using DbUp;
using DbUp.Builder;
using DbUp.Engine;
using Npgsql;

namespace Scheduler.Service.Storage;

/// <summary>
/// PostgreSQL 15 or later. Writing transactions take turns by an advisory lock, so that the same code is right on both engines: an
/// owner's garden is small, and one writer at a time is plenty for a service of this kind.
/// </summary>
internal sealed partial class PostgresEngine : DatabaseEngine, IDisposable
{
    /// <summary>Number of the advisory lock; any other program in the same database must use another.</summary>
    private const long WritersTurn = 5_080_001;

    private readonly string _connectionString;
    private readonly NpgsqlDataSource _source;

    public PostgresEngine(StorageOptions storage)
    {
        _connectionString = storage.ConnectionString ?? throw new InvalidOperationException(
            "Storage:Provider is 'postgres', but Storage:ConnectionString is missing. Give one, such as 'Host=localhost;Database=scheduler;Username=scheduler;Password=...'.");
        _source = NpgsqlDataSource.Create(_connectionString);
    }

    public override string CountTable => "SELECT COUNT(*) FROM information_schema.tables WHERE table_schema = current_schema() AND table_name = @name";

    public override DbConnection Connect() => _source.CreateConnection();

    public override async Task<DbTransaction> BeginAsync(DbConnection connection, CancellationToken cancel)
    {
        var transaction = await connection.BeginTransactionAsync(cancel);
        await connection.ExecuteAsync(new CommandDefinition("SELECT pg_advisory_xact_lock(@WritersTurn)", new { WritersTurn }, transaction, cancellationToken: cancel));
        return transaction;
    }

    public override async Task<DbTransaction> BeginMomentAsync(DbConnection connection, CancellationToken cancel) =>
        await connection.BeginTransactionAsync(IsolationLevel.RepeatableRead, cancel);

    public override void Prepare()
    {
    }

    public override UpgradeEngineBuilder Upgrade() => DeployChanges.To.PostgresqlDatabase(_connectionString).WithPreprocessor(new Widths());

    public void Dispose() => _source.Dispose();

    /// <summary>SQLite's INTEGER holds 64 bits; PostgreSQL calls that BIGINT.</summary>
    private sealed partial class Widths : IScriptPreprocessor
    {
        public string Process(string contents) => Integer().Replace(contents, "BIGINT");

        [GeneratedRegex(@"\bINTEGER\b")]
        private static partial Regex Integer();
    }
}
