using System.Data.Common;
using Dapper;
using NodaTime;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Storage;

/// <summary>A tree as it is kept.</summary>
public sealed record StoredTree(Guid GardenId, Tree Tree, Instant CreatedAt, Instant ChangedAt);

/// <summary>Reads and writes trees. Every method that is given an id also takes the owner's account, so nobody reaches another's.</summary>
public sealed class TreeStore(Database database)
{
    internal const string Upsert =
        """
        INSERT INTO trees (id, garden_id, body, created_at, changed_at) VALUES (@Id, @GardenId, @Body, @CreatedAt, @ChangedAt)
        ON CONFLICT (id) DO UPDATE SET garden_id = excluded.garden_id, body = excluded.body, created_at = excluded.created_at,
            changed_at = excluded.changed_at
        """;

    private const string Select = "SELECT t.garden_id, t.body, t.created_at, t.changed_at FROM trees t JOIN gardens g ON g.id = t.garden_id";

    public async Task<StoredTree?> FindAsync(Guid accountId, Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await FindAsync(connection, null, accountId, id);
    }

    public async Task<IReadOnlyList<StoredTree>> OfGardenAsync(
        Guid accountId, Guid gardenId, string after, int limit, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await OfGardenAsync(connection, null, accountId, gardenId, after, limit);
    }

    internal static async Task<IReadOnlyList<StoredTree>> OfGardenAsync(
        DbConnection connection, DbTransaction? transaction, Guid accountId, Guid gardenId, string after, int limit)
    {
        var rows = await connection.QueryAsync<Row>(
            $"{Select} WHERE g.account_id = @accountId AND t.garden_id = @gardenId AND t.id > @after ORDER BY t.id LIMIT @limit",
            new { accountId, gardenId, after, limit }, transaction);
        return [.. rows.Select(row => row.ToTree())];
    }

    public async Task AddAsync(StoredTree tree, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(Upsert, ToRow(tree));
    }

    /// <summary>Reads, changes and writes in one go, so that no other change is lost in between. A change that gives null writes nothing.</summary>
    public async Task<(StoredTree? Before, StoredTree? After)> ChangeAsync(
        Guid accountId, Guid id, Func<StoredTree, StoredTree?> change, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(change);
        await using var connection = await database.OpenAsync(cancel);
        await using var transaction = await database.BeginAsync(connection, cancel);
        if (await FindAsync(connection, transaction, accountId, id) is not { } before)
            return (null, null);
        var after = change(before);
        if (after is not null)
            await connection.ExecuteAsync(Upsert, ToRow(after), transaction);
        await transaction.CommitAsync(cancel);
        return (before, after);
    }

    /// <summary>To be called after <see cref="FindAsync(Guid, Guid, CancellationToken)"/> has shown that the tree is the caller's.</summary>
    public async Task DeleteAsync(Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync("DELETE FROM trees WHERE id = @id", new { id });
    }

    internal static object ToRow(StoredTree stored) =>
        new { stored.Tree.Id, stored.GardenId, Body = Json.Write(stored.Tree), stored.CreatedAt, stored.ChangedAt };

    private static async Task<StoredTree?> FindAsync(DbConnection connection, DbTransaction? transaction, Guid accountId, Guid id)
    {
        var row = await connection.QuerySingleOrDefaultAsync<Row>(
            $"{Select} WHERE g.account_id = @accountId AND t.id = @id", new { accountId, id }, transaction);
        return row?.ToTree();
    }

    private sealed class Row
    {
        public Guid GardenId { get; init; }
        public string Body { get; init; } = "";
        public Instant CreatedAt { get; init; }
        public Instant ChangedAt { get; init; }

        public StoredTree ToTree() => new(GardenId, Json.Read<Tree>(Body), CreatedAt, ChangedAt);
    }
}
