using Dapper;
using Scheduler.Domain.Trees;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Feeds;

/// <summary>Reads and writes feeds and their settings. What belongs to another account is not found.</summary>
public sealed class FeedStore(Database database)
{
    public async Task<Feed?> FindAsync(Guid accountId, Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var row = await connection.QuerySingleOrDefaultAsync<FeedRow>(
            $"SELECT {FeedRow.Columns} FROM feeds WHERE id = @id AND account_id = @accountId", new { id, accountId });
        return row?.ToFeed();
    }

    /// <summary>Oldest first, at most <paramref name="limit"/>, after the feed <paramref name="after"/>.</summary>
    public async Task<IReadOnlyList<Feed>> ListAsync(Guid accountId, Guid? after, int limit, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var rows = await connection.QueryAsync<FeedRow>(
            $"""
            SELECT {FeedRow.Columns} FROM feeds
            WHERE account_id = @accountId AND (@after = '' OR (created_at, id) > (SELECT created_at, id FROM feeds WHERE id = @after AND account_id = @accountId))
            ORDER BY created_at, id LIMIT @limit
            """,
            new { accountId, after = after?.ToString("N") ?? "", limit });
        return [.. rows.Select(row => row.ToFeed())];
    }

    public async Task AddAsync(Feed feed, string tokenHash, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(
            """
            INSERT INTO feeds (id, account_id, name, token_hash, token_sealed, garden_ids, techniques, content, reminders, gathered, span, begins_at, created_at, changed_at)
            VALUES (@Id, @AccountId, @Name, @TokenHash, @TokenSealed, @GardenIds, @Techniques, @Content, @Reminders, @Gathered, @Span, @BeginsAt, @CreatedAt, @ChangedAt)
            """,
            Values(feed, tokenHash));
    }

    public async Task ChangeAsync(Feed feed, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(
            """
            UPDATE feeds SET name = @Name, garden_ids = @GardenIds, techniques = @Techniques, content = @Content,
                reminders = @Reminders, gathered = @Gathered, span = @Span, begins_at = @BeginsAt, changed_at = @ChangedAt
            WHERE id = @Id AND account_id = @AccountId
            """,
            Values(feed, tokenHash: null));
    }

    /// <summary>From this moment the old address is unknown.</summary>
    public async Task RotateAsync(Guid id, string tokenHash, string tokenSealed, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(
            "UPDATE feeds SET token_hash = @tokenHash, token_sealed = @tokenSealed WHERE id = @id", new { id, tokenHash, tokenSealed });
    }

    public async Task<bool> DeleteAsync(Guid accountId, Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.ExecuteAsync("DELETE FROM feeds WHERE id = @id AND account_id = @accountId", new { id, accountId }) > 0;
    }

    /// <summary>Ids of the account's gardens.</summary>
    public async Task<IReadOnlyCollection<Guid>> GardensAsync(Guid accountId, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return (await connection.QueryAsync<Guid>("SELECT id FROM gardens WHERE account_id = @accountId", new { accountId })).ToHashSet();
    }

    private static object Values(Feed feed, string? tokenHash) => new
    {
        feed.Id,
        feed.AccountId,
        feed.Settings.Name,
        TokenHash = tokenHash,
        feed.TokenSealed,
        GardenIds = feed.Settings.GardenIds is { } gardens ? Json.Write(gardens) : null,
        Techniques = feed.Settings.Techniques is { } techniques ? Json.Write(techniques) : null,
        Content = Ids.Of(feed.Settings.Content),
        Reminders = Json.Write(feed.Settings.Reminders.Select(reminder => reminder.Text)),
        Gathered = Ids.Of(feed.Settings.Gathered),
        Span = Ids.Of(feed.Settings.Span),
        BeginsAt = feed.Settings.At is { } at ? ClockTime.Text(at) : null,
        feed.CreatedAt,
        feed.ChangedAt
    };
}
