using System.Data.Common;
using Dapper;
using NodaTime;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Feeds;

/// <summary>The bytes of one feed as polls get them.</summary>
public sealed class FeedBody
{
    public Guid Id { get; init; }
    public byte[] Body { get; init; } = [];
    public string Etag { get; init; } = "";
    public Instant BodyChangedAt { get; init; }
}

/// <summary>Reads and writes the stored bytes of feeds, and the windows they are made from.</summary>
public sealed class FeedBodies(Database database)
{
    /// <summary>The whole work of a poll: one look-up by the hash of the secret.</summary>
    public async Task<FeedBody?> FindAsync(string tokenHash, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.QuerySingleOrDefaultAsync<FeedBody>(
            "SELECT id, body, etag, body_changed_at FROM feeds WHERE token_hash = @tokenHash AND body IS NOT NULL", new { tokenHash });
    }

    /// <summary>Feeds of one owner that may show this garden.</summary>
    public async Task<IReadOnlyList<Guid>> CoveringAsync(Guid gardenId, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var rows = await connection.QueryAsync<FeedRow>(
            $"SELECT {FeedRow.Columns} FROM feeds WHERE account_id = (SELECT account_id FROM gardens WHERE id = @gardenId) ORDER BY id",
            new { gardenId });
        return [.. rows.Select(row => row.ToFeed()).Where(feed => feed.Settings.Covers(gardenId)).Select(feed => feed.Id)];
    }

    /// <summary>Makes the bytes anew from what is stored, and keeps what differs, all in one turn: of two at once
    /// the later one sees everything the earlier one saw.</summary>
    internal async Task ReplaceAsync(Guid feedId, Func<Feed, FeedRows, FeedBody?, FeedTurn> make, int sinceYear, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await using var turn = await database.BeginAsync(connection, cancel);
        // Touching the row first makes the second of two builders wait here on either engine.
        if (await connection.ExecuteAsync("UPDATE feeds SET etag = etag WHERE id = @feedId", new { feedId }, turn) == 0)
            return;
        var feed = (await connection.QuerySingleAsync<FeedRow>(
            $"SELECT {FeedRow.Columns} FROM feeds WHERE id = @feedId", new { feedId }, turn)).ToFeed();
        var kept = await connection.QuerySingleOrDefaultAsync<FeedBody>(
            "SELECT id, body, etag, body_changed_at FROM feeds WHERE id = @feedId AND body IS NOT NULL", new { feedId }, turn);
        var windows = await WindowsAsync(connection, turn, feed, sinceYear);
        var visits = feed.Settings.ShowsPlan ? await VisitsAsync(connection, turn, feed, windows) : [];
        var made = make(feed, new FeedRows(windows, visits, await ZonesAsync(connection, turn, feed), await FeedEventStore.ToldAsync(connection, turn, feedId)), kept);
        await FeedEventStore.WriteAsync(connection, turn, feedId, made.Events);
        if (made.Body is { } body)
        {
            await connection.ExecuteAsync(
                "UPDATE feeds SET body = @Body, etag = @Etag, body_changed_at = @BodyChangedAt WHERE id = @Id", body, turn);
        }
        await turn.CommitAsync(cancel);
    }

    /// <summary>Notes who fetched last, and when.</summary>
    public async Task NoteFetchAsync(Guid feedId, Instant at, string by, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(
            "UPDATE feeds SET last_fetched_at = @at, last_fetched_by = @by WHERE id = @feedId", new { feedId, at, by });
    }

    private static async Task<IReadOnlyList<StoredWindow>> WindowsAsync(DbConnection connection, DbTransaction turn, Feed feed, int sinceYear)
    {
        var rows = await connection.QueryAsync<WindowRow>(
            """
            SELECT w.id, w.garden_id, w.body, w.sequence, w.changed_at, w.withdrawn_at
            FROM windows w JOIN gardens g ON g.id = w.garden_id
            WHERE g.account_id = @AccountId AND w.growth_year >= @sinceYear
            UNION ALL
            SELECT id, garden_id, body, sequence, changed_at, withdrawn_at
            FROM former_windows WHERE account_id = @AccountId AND growth_year >= @sinceYear
            """,
            new { feed.AccountId, sinceYear }, turn);
        return [.. rows.Where(row => feed.Settings.Covers(row.GardenId)).Select(row => row.ToWindow())];
    }

    private static async Task<IReadOnlyList<DatedVisit>> VisitsAsync(
        DbConnection connection, DbTransaction turn, Feed feed, IReadOnlyList<StoredWindow> windows)
    {
        var plans = await connection.QueryAsync<string>(
            "SELECT p.body FROM plans p JOIN gardens g ON g.id = p.garden_id WHERE g.account_id = @AccountId ORDER BY p.garden_id", new { feed.AccountId }, turn);
        var byId = windows.ToDictionary(window => window.Id);
        return [.. plans.SelectMany(body => Json.Read<StoredPlan>(body).Visits)
            .Where(visit => visit.Date is not null && byId.ContainsKey(visit.WindowId))
            .Select(visit => new DatedVisit(byId[visit.WindowId], visit, visit.Date!.Value))];
    }

    private static async Task<IReadOnlyDictionary<Guid, string>> ZonesAsync(DbConnection connection, DbTransaction turn, Feed feed) =>
        (await connection.QueryAsync<ZoneRow>("SELECT id, time_zone FROM gardens WHERE account_id = @AccountId AND time_zone IS NOT NULL", new { feed.AccountId }, turn))
            .ToDictionary(row => row.Id, row => row.TimeZone);

    private sealed class ZoneRow
    {
        public Guid Id { get; init; }
        public string TimeZone { get; init; } = "";
    }

    private sealed class WindowRow
    {
        public Guid Id { get; init; }
        public Guid GardenId { get; init; }
        public string Body { get; init; } = "";
        public long Sequence { get; init; }
        public Instant ChangedAt { get; init; }
        public Instant? WithdrawnAt { get; init; }

        public StoredWindow ToWindow() =>
            new(Id, GardenId, Json.Read<WindowBody>(Body), (int)Sequence, ChangedAt, WithdrawnAt);
    }
}

/// <summary>What a feed may show.</summary>
/// <param name="Zones">IANA ids of the gardens' time zones.</param>
/// <param name="Told">What it has told before, by the id of the event.</param>
internal sealed record FeedRows(
    IReadOnlyList<StoredWindow> Windows, IReadOnlyList<DatedVisit> Visits, IReadOnlyDictionary<Guid, string> Zones, IReadOnlyDictionary<string, ToldEvent> Told);

/// <summary>What a rebuild made.</summary>
/// <param name="Body">Null: the bytes are those that are kept.</param>
internal sealed record FeedTurn(LedgerTurn Events, FeedBody? Body);

/// <summary>A planned visit with its window and its day.</summary>
public sealed record DatedVisit(StoredWindow Window, PlannedVisit Visit, LocalDate Date);
