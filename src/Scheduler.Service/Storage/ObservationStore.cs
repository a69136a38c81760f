using Dapper;
using NodaTime;

namespace Scheduler.Service.Storage;

/// <summary>An observation as it is kept: of a tree, or of a garden's benches when <see cref="TreeId"/> is null.</summary>
public sealed record StoredObservation(Guid Id, Guid GardenId, Guid? TreeId, LocalDate Date, string Body, Instant CreatedAt)
{
    /// <summary>What the lists are ordered by.</summary>
    public string Cursor => $"{Date:uuuu-MM-dd}_{Id:N}";
}

/// <summary>Reads and writes observations.</summary>
public sealed class ObservationStore(Database database)
{
    internal const string Upsert =
        """
        INSERT INTO observations (id, garden_id, tree_id, date, body, created_at) VALUES (@Id, @GardenId, @TreeId, @Date, @Body, @CreatedAt)
        ON CONFLICT (id) DO UPDATE SET garden_id = excluded.garden_id, tree_id = excluded.tree_id, date = excluded.date, body = excluded.body,
            created_at = excluded.created_at
        """;

    private const string Select = "SELECT o.id, o.garden_id, o.tree_id, o.date, o.body, o.created_at FROM observations o JOIN gardens g ON g.id = o.garden_id";
    private const string OnePage = "AND o.date || '_' || o.id > @after ORDER BY o.date, o.id LIMIT @limit";

    public async Task AddAsync(StoredObservation observation, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(Upsert, observation);
    }

    public async Task<IReadOnlyList<StoredObservation>> OfTreeAsync(Guid treeId, string after, int limit, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var rows = await connection.QueryAsync<Row>($"{Select} WHERE o.tree_id = @treeId {OnePage}", new { treeId, after, limit });
        return [.. rows.Select(row => row.ToObservation())];
    }

    public async Task<IReadOnlyList<StoredObservation>> OfBenchesAsync(Guid gardenId, string after, int limit, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var rows = await connection.QueryAsync<Row>(
            $"{Select} WHERE o.garden_id = @gardenId AND o.tree_id IS NULL {OnePage}", new { gardenId, after, limit });
        return [.. rows.Select(row => row.ToObservation())];
    }

    public async Task<StoredObservation?> FindOfTreeAsync(Guid accountId, Guid treeId, Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var row = await connection.QuerySingleOrDefaultAsync<Row>(
            $"{Select} WHERE g.account_id = @accountId AND o.tree_id = @treeId AND o.id = @id", new { accountId, treeId, id });
        return row?.ToObservation();
    }

    public async Task<StoredObservation?> FindOfBenchesAsync(Guid accountId, Guid gardenId, Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var row = await connection.QuerySingleOrDefaultAsync<Row>(
            $"{Select} WHERE g.account_id = @accountId AND o.garden_id = @gardenId AND o.tree_id IS NULL AND o.id = @id", new { accountId, gardenId, id });
        return row?.ToObservation();
    }

    /// <summary>To be called after one of the finders has shown that the row is the caller's.</summary>
    public async Task DeleteAsync(Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync("DELETE FROM observations WHERE id = @id", new { id });
    }

    internal sealed class Row
    {
        public Guid Id { get; init; }
        public Guid GardenId { get; init; }
        public Guid? TreeId { get; init; }
        public LocalDate Date { get; init; }
        public string Body { get; init; } = "";
        public Instant CreatedAt { get; init; }

        public StoredObservation ToObservation() => new(Id, GardenId, TreeId, Date, Body, CreatedAt);
    }
}
