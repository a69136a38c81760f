using System.Data.Common;
using Dapper;
using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Roads;

/// <summary>Reads and writes roads. What belongs to another account is not found.</summary>
public sealed class RoadStore(Database database)
{
    public async Task<Road?> FindAsync(Guid accountId, Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var row = await connection.QuerySingleOrDefaultAsync<RoadRow>(
            $"SELECT {Road.Columns} FROM roads WHERE id = @id AND account_id = @accountId", new { id, accountId });
        return row?.ToRoad();
    }

    /// <summary>In the order in which they were made.</summary>
    public async Task<IReadOnlyList<Road>> ListAsync(Guid accountId, string after, int limit, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var rows = await connection.QueryAsync<RoadRow>(
            $"SELECT {Road.Columns} FROM roads WHERE account_id = @accountId AND id > @after ORDER BY id LIMIT @limit", new { accountId, after, limit });
        return [.. rows.Select(row => row.ToRoad())];
    }

    public async Task<int> CountAsync(Guid accountId, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return (int)await connection.ExecuteScalarAsync<long>("SELECT COUNT(*) FROM roads WHERE account_id = @accountId", new { accountId });
    }

    /// <summary>How many notices each of an account's roads has still to tell.</summary>
    public async Task<IReadOnlyDictionary<Guid, int>> PendingAsync(Guid accountId, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var rows = await connection.QueryAsync<(Guid RoadId, long Pending)>(
            """
            SELECT d.road_id, COUNT(*) FROM deliveries d JOIN roads r ON r.id = d.road_id
            WHERE r.account_id = @accountId AND d.state = 'pending' GROUP BY d.road_id
            """,
            new { accountId });
        return rows.ToDictionary(row => row.RoadId, row => (int)row.Pending);
    }

    /// <param name="leaveHash">Of the secret that ends mails; null for other kinds.</param>
    public async Task AddAsync(Road road, string? leaveHash, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await using var turn = await database.BeginAsync(connection, cancel);
        await AddAsync(connection, turn, road, leaveHash);
        await turn.CommitAsync(cancel);
    }

    internal static async Task AddAsync(DbConnection connection, DbTransaction turn, Road road, string? leaveHash)
    {
        await connection.ExecuteAsync(
            """
            INSERT INTO roads (id, account_id, kind, state, settings, target_sealed, leave_hash, digest_on, on_since, created_at)
            VALUES (@Id, @AccountId, @Kind, @State, @Settings, @TargetSealed, @leaveHash, @DigestOn, @OnSince, @CreatedAt)
            """,
            Values(road, leaveHash), turn);
        if (road.State == RoadState.On)
            await NoticeBook.FillAsync(connection, turn, road);
    }

    /// <summary>
    /// Writes settings, target and state as they are now. Out of use it forgets what it had to tell; in use it takes up what its
    /// settings now choose, and drops what they no longer do. With a new end the link that was sent to the old one confirms nothing.
    /// </summary>
    public async Task ChangeAsync(Road road, string? leaveHash, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(road);
        await using var connection = await database.OpenAsync(cancel);
        await using var turn = await database.BeginAsync(connection, cancel);
        await ChangeAsync(connection, turn, road, leaveHash);
        await turn.CommitAsync(cancel);
    }

    internal static async Task ChangeAsync(DbConnection connection, DbTransaction turn, Road road, string? leaveHash)
    {
        await connection.ExecuteAsync(
            """
            UPDATE roads SET state = @State, settings = @Settings, target_sealed = @TargetSealed, leave_hash = @leaveHash, digest_on = @DigestOn,
                on_since = @OnSince, failures = 0, wait_until = NULL,
                confirm_hash = CASE WHEN @State <> 'on' AND target_sealed = @TargetSealed THEN confirm_hash ELSE NULL END
            WHERE id = @Id AND account_id = @AccountId
            """,
            Values(road, leaveHash), turn);
        await connection.ExecuteAsync("UPDATE deliveries SET state = 'dropped' WHERE road_id = @Id AND state = 'pending'", new { road.Id }, turn);
        if (road.State == RoadState.On)
            await NoticeBook.FillAsync(connection, turn, road);
    }

    /// <summary>From now on the link with this secret confirms the road, for as long as it holds.</summary>
    public async Task ExpectAsync(Guid id, string confirmHash, Instant until, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync("UPDATE roads SET confirm_hash = @confirmHash, confirm_until = @until WHERE id = @id", new { id, confirmHash, until });
    }

    public async Task<Road?> ByConfirmAsync(string hash, Instant now, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var row = await connection.QuerySingleOrDefaultAsync<RoadRow>(
            $"SELECT {Road.Columns} FROM roads WHERE confirm_hash = @hash AND confirm_until > @now", new { hash, now });
        return row?.ToRoad();
    }

    public async Task<Road?> ByLeaveAsync(string hash, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var row = await connection.QuerySingleOrDefaultAsync<RoadRow>($"SELECT {Road.Columns} FROM roads WHERE leave_hash = @hash", new { hash });
        return row?.ToRoad();
    }

    public async Task<bool> DeleteAsync(Guid accountId, Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.ExecuteAsync("DELETE FROM roads WHERE id = @id AND account_id = @accountId", new { id, accountId }) > 0;
    }

    /// <summary>The roads in use of one account.</summary>
    internal static async Task<IReadOnlyList<Road>> OnAsync(DbConnection connection, DbTransaction turn, Guid accountId)
    {
        var rows = await connection.QueryAsync<RoadRow>(
            $"SELECT {Road.Columns} FROM roads WHERE account_id = @accountId AND state = 'on' ORDER BY id", new { accountId }, turn);
        return [.. rows.Select(row => row.ToRoad())];
    }

    private static object Values(Road road, string? leaveHash) => new
    {
        road.Id,
        road.AccountId,
        Kind = Ids.Of(road.Kind),
        State = Ids.Of(road.State),
        Settings = Json.Write(road.Settings),
        road.TargetSealed,
        leaveHash,
        road.DigestOn,
        road.OnSince,
        road.CreatedAt
    };
}
