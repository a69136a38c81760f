using Dapper;
using NodaTime;

namespace Scheduler.Service.Storage;

/// <summary>An owner of gardens. Nothing personal but the name they chose.</summary>
public sealed record Account
{
    public required Guid Id { get; init; }
    public required string Name { get; init; }
    public required Instant CreatedAt { get; init; }
}

/// <summary>Reads and writes accounts.</summary>
public sealed class AccountStore(Database database)
{
    public async Task<Account?> FindAsync(Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.QuerySingleOrDefaultAsync<Account>("SELECT id, name, created_at FROM accounts WHERE id = @id", new { id });
    }

    /// <summary>Writes the account and its first key, both or none.</summary>
    public async Task AddAsync(Account account, AccessKey key, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await using var transaction = await connection.BeginTransactionAsync(cancel);
        await connection.ExecuteAsync("INSERT INTO accounts (id, name, created_at) VALUES (@Id, @Name, @CreatedAt)", account, transaction);
        await connection.ExecuteAsync(KeyStore.Insert, key, transaction);
        await transaction.CommitAsync(cancel);
    }

    /// <summary>Erases the account with all it has: keys, gardens, trees, logs, windows, feeds and kept answers.</summary>
    public async Task EraseAsync(Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await using var transaction = await connection.BeginTransactionAsync(cancel);
        await connection.ExecuteAsync("DELETE FROM answers WHERE account_id = @id", new { id }, transaction);
        await connection.ExecuteAsync("DELETE FROM accounts WHERE id = @id", new { id }, transaction);
        await transaction.CommitAsync(cancel);
    }
}
