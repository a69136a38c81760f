using Dapper;
using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Planning;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Roads;

/// <summary>
/// What each road has to tell, and how its tries went. A road is worked by one worker at a time: whoever's update takes the claim. What
/// has arrived is written down at once and never sent again.
/// </summary>
public sealed class Outbox(Database database)
{
    /// <summary>Roads in use whose turn it may be.</summary>
    public async Task<IReadOnlyList<Road>> DueAsync(Instant now, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var rows = await connection.QueryAsync<RoadRow>(
            $"""
            SELECT {Road.Columns} FROM roads r WHERE r.state = 'on' AND (r.wait_until IS NULL OR r.wait_until <= @now)
                AND (r.kind = 'email' OR EXISTS (SELECT 1 FROM deliveries d WHERE d.road_id = r.id AND d.state = 'pending'))
            ORDER BY r.id
            """,
            new { now });
        return [.. rows.Select(row => row.ToRoad())];
    }

    /// <summary>When the first of the roads that still wait after a failure may be tried again.</summary>
    public async Task<Instant?> NextTryAsync(Instant now, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.QuerySingleOrDefaultAsync<Instant?>(
            "SELECT wait_until FROM roads WHERE state = 'on' AND wait_until > @now ORDER BY wait_until LIMIT 1", new { now });
    }

    /// <summary>
    /// Takes the road until a moment, or holds it longer. The road as it is now, or null: another worker has it or has just failed on it, or it is off.
    /// </summary>
    /// <param name="real">The time by the machine, which runs on where the service's own clock stands still.</param>
    public async Task<Road?> ClaimAsync(Guid roadId, string claim, Instant now, Instant real, Instant until, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var taken = await connection.ExecuteAsync(
            """
            UPDATE roads SET claim = @claim, claimed_until = @until
            WHERE id = @roadId AND state = 'on' AND (claim IS NULL OR claim = @claim OR claimed_until < @real) AND (wait_until IS NULL OR wait_until <= @now)
            """,
            new { roadId, claim, now, real, until });
        if (taken == 0)
            return null;
        return (await connection.QuerySingleOrDefaultAsync<RoadRow>($"SELECT {Road.Columns} FROM roads WHERE id = @roadId", new { roadId }))?.ToRoad();
    }

    public async Task ReleaseAsync(Guid roadId, string claim)
    {
        await using var connection = await database.OpenAsync();
        await connection.ExecuteAsync("UPDATE roads SET claim = NULL, claimed_until = NULL WHERE id = @roadId AND claim = @claim", new { roadId, claim });
    }

    /// <summary>What waits on a road, and the urgent notices it has told that still stand.</summary>
    public async Task<IReadOnlyList<ParcelItem>> ItemsAsync(Guid roadId, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var rows = (await connection.QueryAsync<ItemRow>(
            $"""
            SELECT n.id AS notice_id, n.kind, n.visit, n.due, n.urgent, d.state AS delivery_state, {WindowRow.Columns}
            FROM deliveries d JOIN notices n ON n.id = d.notice_id JOIN windows w ON w.id = n.window_id
            WHERE d.road_id = @roadId AND n.closed_at IS NULL AND (d.state = 'pending' OR d.state = 'sent' AND n.urgent = 1)
            ORDER BY n.due, n.id
            """,
            new { roadId })).ToList();
        var visits = new Dictionary<(Guid, int), PlannedVisit>();
        foreach (var gardenId in rows.Where(row => row.Kind == "planned").Select(row => row.GardenId).Distinct())
        {
            if (await connection.QuerySingleOrDefaultAsync<string>("SELECT body FROM plans WHERE garden_id = @gardenId", new { gardenId }) is not { } plan)
                continue;
            foreach (var visit in Json.Read<StoredPlan>(plan).Visits)
                visits[(visit.WindowId, visit.Visit)] = visit;
        }
        return [.. rows.Select(row => row.ToItem(visits))];
    }

    /// <summary>Gardens of an account with their time zones, the oldest first.</summary>
    public async Task<IReadOnlyList<(Guid Id, string? TimeZone)>> GardensAsync(Guid accountId, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return [.. await connection.QueryAsync<(Guid, string?)>(
            "SELECT id, time_zone FROM gardens WHERE account_id = @accountId ORDER BY created_at, id", new { accountId })];
    }

    public async Task ArrivedAsync(Guid roadId, Parcel parcel, Instant now)
    {
        ArgumentNullException.ThrowIfNull(parcel);
        await using var connection = await database.OpenAsync();
        await using var turn = await database.BeginAsync(connection);
        await connection.ExecuteAsync(
            "UPDATE deliveries SET state = 'sent', sent_at = @now, attempts = attempts + 1, error = NULL WHERE road_id = @roadId AND notice_id = @NoticeId",
            parcel.News.Select(item => new { roadId, now, item.NoticeId }), turn);
        await connection.ExecuteAsync(
            """
            UPDATE roads SET last_sent_at = @now, failures = 0, wait_until = NULL, digest_on = COALESCE(@DigestOn, digest_on) WHERE id = @roadId
            """,
            new { roadId, now, parcel.DigestOn }, turn);
        await turn.CommitAsync();
    }

    /// <param name="waitUntil">Null with a road that is gone.</param>
    public async Task FailedAsync(Guid roadId, Parcel parcel, RoadError error, Instant now, Instant? waitUntil)
    {
        ArgumentNullException.ThrowIfNull(parcel);
        await using var connection = await database.OpenAsync();
        await using var turn = await database.BeginAsync(connection);
        await connection.ExecuteAsync(
            "UPDATE deliveries SET attempts = attempts + 1, error = @Text WHERE road_id = @roadId AND notice_id = @NoticeId AND state = 'pending'",
            parcel.News.Select(item => new { roadId, error.Text, item.NoticeId }), turn);
        await connection.ExecuteAsync(
            "UPDATE roads SET failures = failures + 1, wait_until = @waitUntil, last_error = @Text, last_error_kind = @kind, last_error_at = @now WHERE id = @roadId",
            new { roadId, error.Text, kind = Json.Write(error.Kind), now, waitUntil }, turn);
        if (waitUntil is null)
        {
            await connection.ExecuteAsync("UPDATE roads SET state = @gone WHERE id = @roadId", new { roadId, gone = Ids.Of(RoadState.Gone) }, turn);
            await connection.ExecuteAsync("UPDATE deliveries SET state = 'dropped' WHERE road_id = @roadId AND state = 'pending'", new { roadId }, turn);
        }
        await turn.CommitAsync();
    }

    /// <summary>Notes how a test, or with no moment given the question to an address, went. One that arrived ends the wait after failures.</summary>
    public async Task TestedAsync(Guid roadId, RoadError? error, Instant? now)
    {
        await using var connection = await database.OpenAsync();
        await connection.ExecuteAsync(
            error is null
                ? "UPDATE roads SET last_sent_at = COALESCE(@now, last_sent_at), failures = 0, wait_until = NULL WHERE id = @roadId"
                : "UPDATE roads SET last_error = @Text, last_error_kind = @kind, last_error_at = @now WHERE id = @roadId",
            new { roadId, error?.Text, kind = error is null ? null : Json.Write(error.Kind), now });
    }

    /// <summary>Nothing was to tell: no mail, and the day is dealt with.</summary>
    public async Task DigestDoneAsync(Guid roadId, LocalDate digestOn)
    {
        await using var connection = await database.OpenAsync();
        await connection.ExecuteAsync("UPDATE roads SET digest_on = @digestOn WHERE id = @roadId", new { roadId, digestOn });
    }

    private sealed class ItemRow : WindowRow
    {
        public Guid NoticeId { get; init; }
        public string Kind { get; init; } = "";
        public long Visit { get; init; }
        public LocalDate Due { get; init; }
        public long Urgent { get; init; }
        public string DeliveryState { get; init; } = "";

        public ParcelItem ToItem(Dictionary<(Guid, int), PlannedVisit> visits)
        {
            var job = new NoticeJob(WindowId, Json.Read<NoticeKind>($"\"{Kind}\""), (int)Visit);
            return new ParcelItem(NoticeId, job, Due, Urgent != 0, DeliveryState == "sent", ToWindow(), visits.GetValueOrDefault((job.WindowId, job.Visit)));
        }
    }
}
