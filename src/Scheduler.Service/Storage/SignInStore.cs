using Dapper;
using NodaTime;

namespace Scheduler.Service.Storage;

/// <summary>An identity of an OpenID Connect provider that opens an account.</summary>
public sealed record LinkedSignIn
{
    public required Guid Id { get; init; }
    public required string Issuer { get; init; }
    public required string Subject { get; init; }
    public required Guid AccountId { get; init; }
    public required Instant CreatedAt { get; init; }
}

/// <summary>Reads and writes linked identities, and the keys that stand for sign-ins through them.</summary>
public sealed class SignInStore(Database database)
{
    private const string Columns = "id, issuer, subject, account_id, created_at";

    /// <summary>As long as a cookie lives without being used.</summary>
    private static readonly Duration Unused = Duration.FromDays(60);

    public async Task<LinkedSignIn?> FindAsync(string issuer, string subject, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.QuerySingleOrDefaultAsync<LinkedSignIn>(
            $"SELECT {Columns} FROM sign_ins WHERE issuer = @issuer AND subject = @subject", new { issuer, subject });
    }

    public async Task<IReadOnlyList<LinkedSignIn>> ListAsync(Guid accountId, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return [.. await connection.QueryAsync<LinkedSignIn>(
            $"SELECT {Columns} FROM sign_ins WHERE account_id = @accountId ORDER BY created_at, id", new { accountId })];
    }

    /// <summary>Links an identity. False: it opens an account already.</summary>
    public async Task<bool> AddAsync(LinkedSignIn signIn, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.ExecuteAsync(
            """
            INSERT INTO sign_ins (id, issuer, subject, account_id, created_at) VALUES (@Id, @Issuer, @Subject, @AccountId, @CreatedAt)
            ON CONFLICT (issuer, subject) DO NOTHING
            """,
            signIn) == 1;
    }

    /// <summary>Takes an identity away with all sign-ins through it, unless it is the only way into the account. False: it stays.</summary>
    public async Task<bool> RemoveAsync(Guid accountId, Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.ExecuteAsync(
            """
            DELETE FROM sign_ins WHERE id = @id AND account_id = @accountId
            AND (EXISTS (SELECT 1 FROM access_keys k WHERE k.account_id = @accountId AND k.sign_in_id IS NULL)
                OR EXISTS (SELECT 1 FROM sign_ins other WHERE other.account_id = @accountId AND other.id <> @id))
            """,
            new { accountId, id }) == 1;
    }

    /// <summary>Keeps the key of a new sign-in, and forgets those that nobody used for as long as a cookie lives.</summary>
    public async Task BeginAsync(AccessKey key, Guid signInId, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(key);
        await using var connection = await database.OpenAsync(cancel);
        await using var transaction = await connection.BeginTransactionAsync(cancel);
        await connection.ExecuteAsync(
            "DELETE FROM access_keys WHERE sign_in_id = @signInId AND COALESCE(last_used_at, created_at) < @since",
            new { signInId, since = key.CreatedAt - Unused }, transaction);
        await connection.ExecuteAsync(KeyStore.Insert, key, transaction);
        await connection.ExecuteAsync("UPDATE access_keys SET sign_in_id = @signInId WHERE id = @Id", new { signInId, key.Id }, transaction);
        await transaction.CommitAsync(cancel);
    }

    /// <summary>After signing out the key of a sign-in is good for nothing; a key that somebody holds stays.</summary>
    public async Task EndAsync(Guid accountId, Guid keyId, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(
            "DELETE FROM access_keys WHERE id = @keyId AND account_id = @accountId AND sign_in_id IS NOT NULL", new { accountId, keyId });
    }
}
