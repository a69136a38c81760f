using System.Data.Common;
using Dapper;
using NodaTime;

namespace Scheduler.Service.Storage;

/// <summary>A promise that the owner let go.</summary>
public sealed class DismissedPromise
{
    public Guid Id { get; init; }
    public Guid TreeId { get; init; }
    public Guid WorkId { get; init; }
    public string What { get; init; } = "";
    public string? Technique { get; init; }
}

/// <summary>Keeps which promises were let go; all else about promises follows from the log.</summary>
public sealed class PromiseStore(Database database)
{
    internal const string Insert =
        """
        INSERT INTO dismissed_follow_ups (id, work_id, what, technique, created_at) VALUES (@Id, @WorkId, @What, @Technique, @CreatedAt)
        ON CONFLICT (id) DO NOTHING
        """;

    public async Task DismissAsync(Guid id, Guid workId, string what, string? technique, Instant now, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(Insert, new { Id = id, WorkId = workId, What = what, Technique = technique, CreatedAt = now });
    }

    internal static Task<IEnumerable<DismissedPromise>> DismissedAsync(DbConnection connection, DbTransaction? moment, Guid gardenId) =>
        connection.QueryAsync<DismissedPromise>(
            """
            SELECT d.id, w.tree_id, d.work_id, d.what, d.technique
            FROM dismissed_follow_ups d JOIN work w ON w.id = d.work_id JOIN trees t ON t.id = w.tree_id
            WHERE t.garden_id = @gardenId ORDER BY w.date, w.id, d.what, d.technique
            """,
            new { gardenId }, moment);
}
