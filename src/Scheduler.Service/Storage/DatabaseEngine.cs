using System.Data.Common;
using DbUp.Builder;

namespace Scheduler.Service.Storage;

/// <summary>What differs between the database engines. Everything else is written in the SQL they share.</summary>
internal abstract class DatabaseEngine
{
    /// <summary>A closed connection.</summary>
    public abstract DbConnection Connect();

    /// <summary>
    /// A transaction that writes, one at a time: who reads and then writes in it has seen everything that earlier ones wrote.
    /// </summary>
    public abstract Task<DbTransaction> BeginAsync(DbConnection connection, CancellationToken cancel);

    /// <summary>A transaction that only reads, all of it as it was at one moment.</summary>
    public abstract Task<DbTransaction> BeginMomentAsync(DbConnection connection, CancellationToken cancel);

    /// <summary>What has to be done once, before the tables are looked at.</summary>
    public abstract void Prepare();

    /// <summary>Counts the tables named <c>@name</c>.</summary>
    public abstract string CountTable { get; }

    /// <summary>The migration engine, aimed at this database.</summary>
    public abstract UpgradeEngineBuilder Upgrade();

    public static DatabaseEngine Of(StorageOptions storage) => storage.Provider switch
    {
        "sqlite" => new SqliteEngine(storage),
        "postgres" => new PostgresEngine(storage),
        var other => throw new InvalidOperationException($"Storage:Provider is '{other}'. Use 'sqlite' or 'postgres'.")
    };
}
