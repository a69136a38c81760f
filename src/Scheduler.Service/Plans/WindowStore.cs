using System.Data.Common;
using Dapper;
using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Plans;

/// <summary>Reads and writes announced windows.</summary>
public sealed class WindowStore(Database database)
{
    private const string Columns = "id, garden_id, body, sequence, changed_at, withdrawn_at";

    public async Task<IReadOnlyList<StoredWindow>> OfGardenAsync(Guid gardenId, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await OfGardenAsync(connection, null, gardenId);
    }

    internal static async Task<IReadOnlyList<StoredWindow>> OfGardenAsync(DbConnection connection, DbTransaction? transaction, Guid gardenId)
    {
        var rows = await connection.QueryAsync<Row>($"SELECT {Columns} FROM windows WHERE garden_id = @gardenId ORDER BY id", new { gardenId }, transaction);
        return [.. rows.Select(row => row.ToWindow())];
    }

    /// <summary>Writes all changes or none, and notes for which local day the garden was planned.</summary>
    public async Task SaveAsync(Guid gardenId, IReadOnlyList<StoredWindow> changes, LocalDate plannedFor, Instant plannedAt, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await using var transaction = await database.BeginAsync(connection, cancel);
        await connection.ExecuteAsync(
            """
            INSERT INTO windows (id, garden_id, tree_id, technique, mode, growth_year, pass, state, body, sequence, changed_at, withdrawn_at)
            VALUES (@Id, @GardenId, @TreeId, @Technique, @Mode, @Year, @Pass, @State, @Body, @Sequence, @ChangedAt, @WithdrawnAt)
            ON CONFLICT (tree_id, technique, mode, growth_year, pass) DO UPDATE SET
                state = excluded.state, body = excluded.body, sequence = excluded.sequence,
                changed_at = excluded.changed_at, withdrawn_at = excluded.withdrawn_at
            """,
            changes.Select(window => new
            {
                window.Id,
                window.GardenId,
                window.Key.TreeId,
                window.Key.Technique,
                Mode = window.Key.Mode ?? "",
                window.Key.Year,
                window.Key.Pass,
                State = Ids.Of(window.State),
                Body = Json.Write(window.Body),
                window.Sequence,
                window.ChangedAt,
                window.WithdrawnAt
            }),
            transaction);
        await connection.ExecuteAsync(
            "UPDATE gardens SET planned_for = @plannedFor, planned_at = @plannedAt WHERE id = @gardenId",
            new { gardenId, plannedFor, plannedAt }, transaction);
        await transaction.CommitAsync(cancel);
    }

    private sealed class Row
    {
        public Guid Id { get; init; }
        public Guid GardenId { get; init; }
        public string Body { get; init; } = "";
        public long Sequence { get; init; }
        public Instant ChangedAt { get; init; }
        public Instant? WithdrawnAt { get; init; }

        public StoredWindow ToWindow() => new(Id, GardenId, Json.Read<WindowBody>(Body), (int)Sequence, ChangedAt, WithdrawnAt);
    }
}
