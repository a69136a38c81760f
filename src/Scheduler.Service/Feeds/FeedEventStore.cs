using System.Data.Common;
using Dapper;
using NodaTime;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Feeds;

/// <summary>Reads and writes what feeds have told of their events, within the turn in which their bytes are made.</summary>
internal static class FeedEventStore
{
    public static async Task<IReadOnlyDictionary<string, ToldEvent>> ToldAsync(DbConnection connection, DbTransaction turn, Guid feedId) =>
        (await connection.QueryAsync<Row>("SELECT body, sequence, changed_at, cancelled_at FROM feed_events WHERE feed_id = @feedId", new { feedId }, turn))
            .Select(row => new ToldEvent(Json.Read<FeedEvent>(row.Body), (int)row.Sequence, row.ChangedAt, row.CancelledAt))
            .ToDictionary(told => told.Event.Id, StringComparer.Ordinal);

    public static async Task WriteAsync(DbConnection connection, DbTransaction turn, Guid feedId, LedgerTurn events)
    {
        await connection.ExecuteAsync(
            """
            INSERT INTO feed_events (feed_id, id, body, sequence, changed_at, cancelled_at) VALUES (@feedId, @Id, @Body, @Sequence, @ChangedAt, @CancelledAt)
            ON CONFLICT (feed_id, id) DO UPDATE SET
                body = excluded.body, sequence = excluded.sequence, changed_at = excluded.changed_at, cancelled_at = excluded.cancelled_at
            """,
            events.Changed.Select(told => new { feedId, told.Event.Id, Body = Json.Write(told.Event), told.Sequence, told.ChangedAt, told.CancelledAt }), turn);
        await connection.ExecuteAsync("DELETE FROM feed_events WHERE feed_id = @feedId AND id = @id", events.Forgotten.Select(id => new { feedId, id }), turn);
    }

    private sealed class Row
    {
        public string Body { get; init; } = "";
        public long Sequence { get; init; }
        public Instant ChangedAt { get; init; }
        public Instant? CancelledAt { get; init; }
    }
}
