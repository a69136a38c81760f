using System.Data.Common;
using Dapper;
using NodaTime;

namespace Scheduler.Service.Storage;

/// <summary>An owner of gardens. Nothing personal but the name they chose.</summary>
public sealed record Account
{
    public required Guid Id { get; init; }
    public required string Name { get; init; }
    /// <summary><c>metric</c> or <c>imperial</c>; null: not chosen.</summary>
    public string? Units { get; init; }
    /// <summary>Null: not chosen.</summary>
    public string? Language { get; init; }
    public required Instant CreatedAt { get; init; }
}

/// <summary>Reads and writes accounts.</summary>
public sealed class AccountStore(Database database)
{
    public async Task<Account?> FindAsync(Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.QuerySingleOrDefaultAsync<Account>("SELECT id, name, units, language, created_at FROM accounts WHERE id = @id", new { id });
    }

    /// <summary>Writes the account and its first key, both or none.</summary>
    public async Task AddAsync(Account account, AccessKey key, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await using var transaction = await database.BeginAsync(connection, cancel);
        await connection.ExecuteAsync("INSERT INTO accounts (id, name, created_at) VALUES (@Id, @Name, @CreatedAt)", account, transaction);
        await connection.ExecuteAsync(KeyStore.Insert, key, transaction);
        await transaction.CommitAsync(cancel);
    }

    /// <summary>Writes the name and how the owner reads pages.</summary>
    public async Task ChangeAsync(Account account, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync("UPDATE accounts SET name = @Name, units = @Units, language = @Language WHERE id = @Id", account);
    }

    /// <summary>What the account chose where practice disagrees, by the name of the point.</summary>
    public async Task<IReadOnlyDictionary<string, string>> SettingsAsync(Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await SettingsAsync(connection, null, id);
    }

    public async Task SaveSettingsAsync(Guid id, IReadOnlyDictionary<string, string> settings, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync("UPDATE accounts SET settings = @settings WHERE id = @id", new { id, settings = Json.Write(settings) });
    }

    internal static async Task<IReadOnlyDictionary<string, string>> SettingsAsync(DbConnection connection, DbTransaction? transaction, Guid id) =>
        await connection.QuerySingleOrDefaultAsync<string>("SELECT settings FROM accounts WHERE id = @id", new { id }, transaction) is { } kept
            ? Json.Read<SortedDictionary<string, string>>(kept)
            : [];

    /// <summary>Erases the account with all it has: keys, gardens, trees, logs, windows, feeds, roads and kept answers.</summary>
    public async Task EraseAsync(Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await using var transaction = await database.BeginAsync(connection, cancel);
        await connection.ExecuteAsync("DELETE FROM answers WHERE account_id = @id", new { id }, transaction);
        await connection.ExecuteAsync("DELETE FROM accounts WHERE id = @id", new { id }, transaction);
        await transaction.CommitAsync(cancel);
    }
}
