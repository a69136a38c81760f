using Dapper;
using NodaTime;

namespace Scheduler.Service.Storage;

/// <summary>A work record as it is kept.</summary>
public sealed record StoredWork(Guid Id, Guid TreeId, LocalDate Date, string Body, Instant CreatedAt)
{
    /// <summary>What the lists are ordered by.</summary>
    public string Cursor => $"{Date:uuuu-MM-dd}_{Id:N}";
}

/// <summary>Reads and writes the work log.</summary>
public sealed class WorkStore(Database database)
{
    internal const string Upsert =
        """
        INSERT INTO work (id, tree_id, date, body, created_at) VALUES (@Id, @TreeId, @Date, @Body, @CreatedAt)
        ON CONFLICT (id) DO UPDATE SET tree_id = excluded.tree_id, date = excluded.date, body = excluded.body, created_at = excluded.created_at
        """;

    private const string Select = "SELECT w.id, w.tree_id, w.date, w.body, w.created_at FROM work w";

    public async Task AddAsync(StoredWork work, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(Upsert, work);
    }

    public async Task<IReadOnlyList<StoredWork>> OfTreeAsync(Guid treeId, string after, int limit, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var rows = await connection.QueryAsync<Row>(
            $"{Select} WHERE w.tree_id = @treeId AND w.date || '_' || w.id > @after ORDER BY w.date, w.id LIMIT @limit", new { treeId, after, limit });
        return [.. rows.Select(row => row.ToWork())];
    }

    public async Task<StoredWork?> FindAsync(Guid accountId, Guid treeId, Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var row = await connection.QuerySingleOrDefaultAsync<Row>(
            $"""
            {Select} JOIN trees t ON t.id = w.tree_id JOIN gardens g ON g.id = t.garden_id
            WHERE g.account_id = @accountId AND w.tree_id = @treeId AND w.id = @id
            """,
            new { accountId, treeId, id });
        return row?.ToWork();
    }

    /// <summary>To be called after <see cref="FindAsync"/> has shown that the row is the caller's.</summary>
    public async Task DeleteAsync(Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync("DELETE FROM work WHERE id = @id", new { id });
    }

    private sealed class Row
    {
        public Guid Id { get; init; }
        public Guid TreeId { get; init; }
        public LocalDate Date { get; init; }
        public string Body { get; init; } = "";
        public Instant CreatedAt { get; init; }

        public StoredWork ToWork() => new(Id, TreeId, Date, Body, CreatedAt);
    }
}
