using Dapper;
using NodaTime;

namespace Scheduler.Service.Storage;

/// <summary>An access key as it is kept: its hash, never the key.</summary>
public sealed record AccessKey
{
    public required Guid Id { get; init; }
    public required Guid AccountId { get; init; }
    public required string KeyHash { get; init; }
    public required string Label { get; init; }
    public required Instant CreatedAt { get; init; }
    /// <summary>Accurate to the hour.</summary>
    public Instant? LastUsedAt { get; init; }
}

/// <summary>Reads and writes access keys.</summary>
public sealed class KeyStore(Database database)
{
    internal const string Insert =
        "INSERT INTO access_keys (id, account_id, key_hash, label, created_at) VALUES (@Id, @AccountId, @KeyHash, @Label, @CreatedAt)";

    private const string Columns = "id, account_id, key_hash, label, created_at, last_used_at";
    private static readonly Duration NoteEvery = Duration.FromHours(1);

    public async Task<AccessKey?> FindAsync(string keyHash, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.QuerySingleOrDefaultAsync<AccessKey>($"SELECT {Columns} FROM access_keys WHERE key_hash = @keyHash", new { keyHash });
    }

    public async Task<IReadOnlyList<AccessKey>> ListAsync(Guid accountId, string after, int limit, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return [.. await connection.QueryAsync<AccessKey>(
            $"SELECT {Columns} FROM access_keys WHERE account_id = @accountId AND id > @after ORDER BY id LIMIT @limit", new { accountId, after, limit })];
    }

    public async Task AddAsync(AccessKey key, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(Insert, key);
    }

    /// <summary>Revokes a key unless nothing else, no other key and no linked identity, opens the account. False: it was not revoked.</summary>
    public async Task<bool> RevokeAsync(Guid accountId, Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.ExecuteAsync(
            """
            DELETE FROM access_keys WHERE id = @id AND account_id = @accountId
            AND (EXISTS (SELECT 1 FROM access_keys other WHERE other.account_id = @accountId AND other.id <> @id AND other.sign_in_id IS NULL)
                OR EXISTS (SELECT 1 FROM sign_ins WHERE account_id = @accountId))
            """,
            new { accountId, id }) == 1;
    }

    public async Task<AccessKey?> FindAsync(Guid accountId, Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.QuerySingleOrDefaultAsync<AccessKey>(
            $"SELECT {Columns} FROM access_keys WHERE id = @id AND account_id = @accountId", new { accountId, id });
    }

    /// <summary>Notes that a key was used, at most once an hour: reading must not mean writing.</summary>
    public async Task NoteUseAsync(AccessKey key, Instant now, CancellationToken cancel = default)
    {
        if (key.LastUsedAt is { } last && now - last < NoteEvery)
            return;
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync("UPDATE access_keys SET last_used_at = @now WHERE id = @Id", new { now, key.Id });
    }
}
