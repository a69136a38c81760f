using Dapper;
using Microsoft.Extensions.Options;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Tests.Storage;

public sealed class DatabaseTests : IDisposable
{
    private readonly string _folder = Path.Combine(Path.GetTempPath(), $"scheduler-tests-{Guid.NewGuid():N}");

    public void Dispose()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Migrate_Twice_AppliesEachMigrationOnceAndKeepsTheRows()
    {
        var database = new Database(Options.Create(new StorageOptions { Folder = _folder }));
        database.Migrate();
        await using var connection = await database.OpenAsync();
        await connection.ExecuteAsync("INSERT INTO accounts (id, name, created_at) VALUES ('a', 'A', '2026-04-15T00:00:00Z')");
        database.Migrate();
        Assert.Equal(1, await connection.ExecuteScalarAsync<long>("SELECT COUNT(*) FROM accounts"));
        var applied = (await connection.QueryAsync<string>("SELECT ScriptName FROM SchemaVersions")).ToList();
        Assert.Equal(applied.Distinct().Count(), applied.Count);
        Assert.Contains(applied, script => script.EndsWith("0001_tables.sql", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Migrate_JournalWithoutAMigration_AppliesIt()
    {
        var database = new Database(Options.Create(new StorageOptions { Folder = _folder }));
        database.Migrate();
        await using var connection = await database.OpenAsync();
        await connection.ExecuteAsync("DELETE FROM SchemaVersions");
        var tables = await connection.QueryAsync<string>("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name <> 'SchemaVersions'");
        await connection.ExecuteAsync("PRAGMA foreign_keys = OFF");
        foreach (var table in tables.ToList())
            await connection.ExecuteAsync($"DROP TABLE \"{table}\"");
        database.Migrate();
        Assert.Equal(0, await connection.ExecuteScalarAsync<long>("SELECT COUNT(*) FROM accounts"));
    }
}
