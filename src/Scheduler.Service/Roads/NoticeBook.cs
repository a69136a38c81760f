using System.Data.Common;
using Dapper;
using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Catalog;
using Scheduler.Service.Planning;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Roads;

/// <summary>
/// Keeps the outbox in step with what is announced and planned. All of one garden's notices and what each road has to tell are written
/// in one transaction, together with the planning they follow: if the service stops before that, the next round sees that they lag behind.
/// </summary>
public sealed class NoticeBook(Database database, CurrentCatalog catalog, IClock clock, RoadBell bell) : INoticeBook
{
    /// <summary>How long closed notices are remembered [days]: longer than any job can come back.</summary>
    private const int RememberedDays = 400;

    public async Task RaiseAsync(Guid gardenId, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await using var turn = await database.BeginAsync(connection, cancel);
        // Touching the row first makes a second run for the same garden wait here on either engine.
        await connection.ExecuteAsync("UPDATE gardens SET planned_at = planned_at WHERE id = @gardenId", new { gardenId }, turn);
        var garden = await connection.QuerySingleOrDefaultAsync<GardenRow>(
            "SELECT id, account_id, time_zone, planned_for, planned_at FROM gardens WHERE id = @gardenId AND planned_at IS NOT NULL", new { gardenId }, turn);
        if (garden is null)
            return;
        var windows = (await connection.QueryAsync<WindowRow>($"SELECT {WindowRow.Columns} FROM windows w WHERE w.garden_id = @gardenId ORDER BY w.id", new { gardenId }, turn))
            .Select(row => row.ToWindow()).ToList();
        var plan = await connection.QuerySingleOrDefaultAsync<string>("SELECT body FROM plans WHERE garden_id = @gardenId", new { gardenId }, turn) is { } body
            ? Json.Read<StoredPlan>(body)
            : null;
        var pending = windows.Where(NoticeFinder.IsPending).Select(window => window.Id).ToHashSet();
        var changes = NoticeDiff.Of(
            await KnownAsync(connection, turn, gardenId), NoticeFinder.Find(windows, plan, garden.PlannedFor, IsNightOn(garden)), pending, garden.PlannedFor);
        await WriteAsync(connection, turn, garden, changes);
        foreach (var road in await RoadStore.OnAsync(connection, turn, garden.AccountId))
            await FillAsync(connection, turn, road);
        await connection.ExecuteAsync(
            """
            INSERT INTO notice_turns (garden_id, planned_at) VALUES (@Id, @PlannedAt)
            ON CONFLICT (garden_id) DO UPDATE SET planned_at = excluded.planned_at
            """,
            garden, turn);
        await turn.CommitAsync(cancel);
        bell.Ring();
    }

    /// <summary>Gardens whose planning was stored but not followed up, as after a stop in between.</summary>
    public async Task CatchUpAsync(CancellationToken cancel = default)
    {
        List<Guid> late;
        await using (var connection = await database.OpenAsync(cancel))
        {
            late = [.. await connection.QueryAsync<Guid>(
                """
                SELECT g.id FROM gardens g LEFT JOIN notice_turns t ON t.garden_id = g.id
                WHERE g.planned_at IS NOT NULL AND (t.planned_at IS NULL OR t.planned_at <> g.planned_at)
                """)];
        }
        foreach (var gardenId in late)
            await RaiseAsync(gardenId, cancel);
    }

    /// <summary>Gives a road what it has still to tell: standing notices that it chose and that were raised with it or lie ahead.</summary>
    internal static async Task FillAsync(DbConnection connection, DbTransaction turn, Road road)
    {
        var rows = await connection.QueryAsync<FillRow>(
            """
            SELECT n.id, n.garden_id, n.kind, n.due, n.raised_at, w.technique, g.planned_for
            FROM notices n JOIN gardens g ON g.id = n.garden_id JOIN windows w ON w.id = n.window_id
            WHERE g.account_id = @AccountId AND n.closed_at IS NULL
                AND NOT EXISTS (SELECT 1 FROM deliveries d WHERE d.road_id = @Id AND d.notice_id = n.id AND d.state <> 'dropped')
            """,
            new { road.AccountId, road.Id }, turn);
        var chosen = rows.Where(row => road.Settings.Wants(row.GardenId, row.Technique, Json.Read<NoticeKind>($"\"{row.Kind}\""))
            && (row.RaisedAt >= road.OnSince || row.Due >= row.PlannedFor));
        await connection.ExecuteAsync(
            """
            INSERT INTO deliveries (road_id, notice_id, state) VALUES (@RoadId, @NoticeId, 'pending')
            ON CONFLICT (road_id, notice_id) DO UPDATE SET state = 'pending' WHERE deliveries.state = 'dropped'
            """,
            chosen.Select(row => new { RoadId = road.Id, NoticeId = row.Id }), turn);
    }

    // As the planning had it that is told here.
    private bool IsNightOn(GardenRow garden)
    {
        var zone = garden.TimeZone is null ? null : DateTimeZoneProviders.Tzdb.GetZoneOrNull(garden.TimeZone);
        return garden.PlannedAt.InZone(zone ?? DateTimeZone.Utc).Hour < catalog.Content.Craft.Thresholds.NightEndsHour.Value;
    }

    private async Task WriteAsync(DbConnection connection, DbTransaction turn, GardenRow garden, NoticeChanges changes)
    {
        var now = clock.GetCurrentInstant();
        await connection.ExecuteAsync("UPDATE notices SET closed_at = @now WHERE id = @id", changes.Close.Select(id => new { id, now }), turn);
        await connection.ExecuteAsync("UPDATE deliveries SET state = 'dropped' WHERE notice_id = @id AND state = 'pending'", changes.Close.Select(id => new { id }), turn);
        await connection.ExecuteAsync("UPDATE notices SET closed_at = NULL WHERE id = @id", changes.Reopen.Select(id => new { id }), turn);
        await connection.ExecuteAsync("UPDATE notices SET due = @Due WHERE id = @Id", changes.Move.Select(move => new { move.Id, move.Due }), turn);
        await connection.ExecuteAsync(
            """
            INSERT INTO notices (id, garden_id, window_id, kind, visit, due, urgent, raised_at)
            VALUES (@Id, @GardenId, @WindowId, @Kind, @Visit, @Due, @Urgent, @now)
            """,
            changes.Raise.Select(due => new
            {
                Id = NewId.Next(), GardenId = garden.Id, due.Job.WindowId, Kind = Ids.Of(due.Job.Kind), due.Job.Visit, due.Due, Urgent = due.IsUrgent ? 1 : 0, now
            }),
            turn);
        await connection.ExecuteAsync(
            "DELETE FROM notices WHERE garden_id = @Id AND closed_at IS NOT NULL AND due < @before", new { garden.Id, before = garden.PlannedFor.PlusDays(-RememberedDays) }, turn);
    }

    private static async Task<IReadOnlyList<StoredNotice>> KnownAsync(DbConnection connection, DbTransaction turn, Guid gardenId)
    {
        var rows = await connection.QueryAsync<NoticeRow>(
            """
            SELECT n.id, n.window_id, n.kind, n.visit, n.due, n.urgent, n.closed_at,
                CASE WHEN EXISTS (SELECT 1 FROM deliveries d WHERE d.notice_id = n.id AND d.state = 'sent') THEN 1 ELSE 0 END AS told
            FROM notices n WHERE n.garden_id = @gardenId ORDER BY n.id
            """,
            new { gardenId }, turn);
        return [.. rows.Select(row => row.ToNotice())];
    }

    private sealed class GardenRow
    {
        public Guid Id { get; init; }
        public Guid AccountId { get; init; }
        public string? TimeZone { get; init; }
        public LocalDate PlannedFor { get; init; }
        public Instant PlannedAt { get; init; }
    }

    private sealed class FillRow
    {
        public Guid Id { get; init; }
        public Guid GardenId { get; init; }
        public string Kind { get; init; } = "";
        public LocalDate Due { get; init; }
        public Instant RaisedAt { get; init; }
        public string Technique { get; init; } = "";
        public LocalDate PlannedFor { get; init; }
    }

    private sealed class NoticeRow
    {
        public Guid Id { get; init; }
        public Guid WindowId { get; init; }
        public string Kind { get; init; } = "";
        public long Visit { get; init; }
        public LocalDate Due { get; init; }
        public long Urgent { get; init; }
        public Instant? ClosedAt { get; init; }
        public long Told { get; init; }

        public StoredNotice ToNotice() => new(
            Id, new NoticeJob(WindowId, Json.Read<NoticeKind>($"\"{Kind}\""), (int)Visit), Due, Urgent != 0, ClosedAt is null, Told != 0);
    }
}

/// <summary>Brings the outbox up to date with what a garden's planning has stored.</summary>
public interface INoticeBook
{
    Task RaiseAsync(Guid gardenId, CancellationToken cancel = default);
}
