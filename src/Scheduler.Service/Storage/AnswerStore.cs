using Dapper;
using NodaTime;

namespace Scheduler.Service.Storage;

/// <summary>An answer kept for the case that the same request comes again. Status 0: the first request is still being worked on.</summary>
public sealed record StoredAnswer
{
    public string RequestHash { get; init; } = "";
    public long Status { get; init; }
    public string? Location { get; init; }
    public string Body { get; init; } = "";
}

/// <summary>Keeps answers to requests that carried an idempotency key, for a day.</summary>
public sealed class AnswerStore(Database database, IClock clock)
{
    private static readonly Duration Kept = Duration.FromDays(1);

    /// <summary>Takes the key for this request; if it is taken, the request or answer that holds it.</summary>
    public async Task<StoredAnswer?> TakeAsync(string scope, string key, string requestHash, CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync("DELETE FROM answers WHERE created_at < @oldest", new { oldest = now - Kept });
        var taken = await connection.ExecuteAsync(
            """
            INSERT INTO answers (account_id, idempotency_key, request_hash, status, body, created_at)
            VALUES (@scope, @key, @requestHash, 0, '', @now)
            ON CONFLICT (account_id, idempotency_key) DO NOTHING
            """,
            new { scope, key, requestHash, now });
        return taken == 1 ? null : await FindAsync(scope, key, cancel);
    }

    public async Task<StoredAnswer?> FindAsync(string scope, string key, CancellationToken cancel)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.QuerySingleOrDefaultAsync<StoredAnswer>(
            "SELECT request_hash, status, location, body FROM answers WHERE account_id = @scope AND idempotency_key = @key", new { scope, key });
    }

    public async Task KeepAsync(string scope, string key, int status, string? location, string body)
    {
        await using var connection = await database.OpenAsync();
        await connection.ExecuteAsync(
            "UPDATE answers SET status = @status, location = @location, body = @body WHERE account_id = @scope AND idempotency_key = @key",
            new { scope, key, status, location, body });
    }

    /// <summary>Gives the key back: the request was refused and changed nothing.</summary>
    public async Task ReleaseAsync(string scope, string key)
    {
        await using var connection = await database.OpenAsync();
        await connection.ExecuteAsync("DELETE FROM answers WHERE account_id = @scope AND idempotency_key = @key", new { scope, key });
    }
}
