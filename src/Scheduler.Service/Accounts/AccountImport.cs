using System.Data.Common;
using Dapper;
using NodaTime;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Roads;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Accounts;

/// <summary>How much came in.</summary>
public sealed record ImportAnswer(int Gardens, int Readings, int Trees, int Work, int Observations, int Feeds, int Roads);

/// <summary>
/// Brings an account document back, all of it or nothing. What the account already has under the same id is replaced; an id that belongs
/// to somebody else is exchanged for a new one throughout; what the document does not name stays.
/// </summary>
public sealed class AccountImport(Database database, IFeedParts feeds, RoadParts roads, IClock clock)
{
    /// <summary>The gardens as they are kept now.</summary>
    public async Task<IReadOnlyList<Guid>> WriteAsync(Guid accountId, ImportedAccount document, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(document);
        await using var connection = await database.OpenAsync(cancel);
        await using var transaction = await database.BeginAsync(connection, cancel);
        var write = new Writing(connection, transaction, accountId, clock.GetCurrentInstant());
        await connection.ExecuteAsync(
            // What the document does not say of units and language stays.
            "UPDATE accounts SET name = @Name, units = COALESCE(@Units, units), language = COALESCE(@Language, language) WHERE id = @accountId",
            new { document.Name, document.Units, document.Language, accountId }, transaction);
        if (document.Settings is { } settings)
            await connection.ExecuteAsync("UPDATE accounts SET settings = @settings WHERE id = @accountId", new { settings = Json.Write(settings), accountId }, transaction);
        var gardenIds = new Dictionary<Guid, Guid>();
        foreach (var garden in document.Gardens)
            gardenIds[garden.Garden.Id] = await GardenAsync(write, garden);
        foreach (var feed in document.Feeds)
            await FeedAsync(write, feed, gardenIds);
        foreach (var road in document.Roads)
            await roads.WriteAsync(connection, transaction, accountId, await write.FreeIdAsync(road.Id, "SELECT account_id FROM roads WHERE id = @id"), road, gardenIds);
        await transaction.CommitAsync(cancel);
        return [.. gardenIds.Values];
    }

    private static async Task<Guid> GardenAsync(Writing write, ImportedGarden part)
    {
        var id = await write.FreeIdAsync(part.Garden.Id, "SELECT account_id FROM gardens WHERE id = @id");
        await write.ExecuteAsync(GardenStore.Upsert, GardenStore.ToRow(part.Garden with { Id = id }));
        await write.ExecuteAsync(
            """
            INSERT INTO readings (garden_id, date, tmin_c, tmax_c) VALUES (@GardenId, @Date, @TminC, @TmaxC)
            ON CONFLICT (garden_id, date) DO UPDATE SET tmin_c = excluded.tmin_c, tmax_c = excluded.tmax_c
            """,
            part.Readings.Select(reading => new { GardenId = id, reading.Date, reading.TminC, reading.TmaxC }));
        foreach (var seen in part.Observations)
        {
            var obsId = await write.FreeObservationIdAsync(seen.Id);
            await write.ExecuteAsync(
                ObservationStore.Upsert, new StoredObservation(obsId, id, null, seen.Date, Json.Write(seen with { Id = obsId }), write.Now));
        }
        foreach (var tree in part.Trees)
            await TreeAsync(write, id, tree);
        return id;
    }

    private static async Task TreeAsync(Writing write, Guid gardenId, ImportedTree part)
    {
        var tree = part.Tree.Tree;
        var id = await write.FreeIdAsync(
            tree.Id, "SELECT g.account_id FROM trees t JOIN gardens g ON g.id = t.garden_id WHERE t.id = @id");
        await write.ExecuteAsync(TreeStore.Upsert, TreeStore.ToRow(part.Tree with { GardenId = gardenId, Tree = tree with { Id = id } }));
        // A tree that the account already had may have stood in another garden.
        await write.ExecuteAsync("UPDATE observations SET garden_id = @gardenId WHERE tree_id = @id", new { gardenId, id });
        var workIds = new Dictionary<Guid, Guid>();
        foreach (var done in part.Work)
        {
            var workId = await write.FreeIdAsync(
                done.Id,
                "SELECT g.account_id FROM work w JOIN trees t ON t.id = w.tree_id JOIN gardens g ON g.id = t.garden_id WHERE w.id = @id");
            await write.ExecuteAsync(WorkStore.Upsert, new StoredWork(workId, id, done.Date, Json.Write(done with { Id = workId }), write.Now));
            workIds[done.Id] = workId;
        }
        // A follow-up is named by its work, so it takes a new name where the work does.
        await write.ExecuteAsync(PromiseStore.Insert, part.Dismissed.Select(item => new
        {
            Id = PromiseId.Of(workIds[item.WorkId], item.What, item.Technique), WorkId = workIds[item.WorkId], item.What, item.Technique, CreatedAt = write.Now
        }));
        foreach (var seen in part.Observations)
        {
            var obsId = await write.FreeObservationIdAsync(seen.Id);
            await write.ExecuteAsync(
                ObservationStore.Upsert, new StoredObservation(obsId, gardenId, id, seen.Date, Json.Write(seen with { Id = obsId }), write.Now));
        }
    }

    private async Task FeedAsync(Writing write, FeedPart feed, Dictionary<Guid, Guid> gardenIds)
    {
        var id = await write.FreeIdAsync(feed.Id, "SELECT account_id FROM feeds WHERE id = @id");
        var token = feeds.NewToken();
        // Gardens that are not in the document are left out: they might be somebody else's.
        var shown = feed.GardenIds?.Where(gardenIds.ContainsKey).Select(gardenId => gardenIds[gardenId]).ToList();
        await write.ExecuteAsync(
            """
            INSERT INTO feeds (id, account_id, name, token_hash, token_sealed, garden_ids, techniques, content, reminders, gathered, span, begins_at, created_at, changed_at)
            VALUES (@id, @AccountId, @Name, @Hash, @Sealed, @GardenIds, @Techniques, @Content, @Reminders, @Gathered, @Span, @At, @CreatedAt, @Now)
            ON CONFLICT (id) DO UPDATE SET name = excluded.name, garden_ids = excluded.garden_ids, techniques = excluded.techniques,
                content = excluded.content, reminders = excluded.reminders,
                gathered = excluded.gathered, span = excluded.span, begins_at = excluded.begins_at, created_at = excluded.created_at, changed_at = excluded.changed_at
            """,
            new
            {
                id, write.AccountId, feed.Name, token.Hash, token.Sealed, GardenIds = shown is null ? null : Json.Write(shown),
                Techniques = feed.Techniques is null ? null : Json.Write(feed.Techniques), feed.Content, Reminders = Json.Write(feed.Reminders),
                feed.Gathered, feed.Span, feed.At, feed.CreatedAt, write.Now
            });
    }

    private sealed record Writing(DbConnection Connection, DbTransaction Transaction, Guid AccountId, Instant Now)
    {
        public Task ExecuteAsync(string sql, object rows) => Connection.ExecuteAsync(sql, rows, Transaction);

        public Task<Guid> FreeObservationIdAsync(Guid id) =>
            FreeIdAsync(id, "SELECT g.account_id FROM observations o JOIN gardens g ON g.id = o.garden_id WHERE o.id = @id");

        /// <summary>The id itself, or a new one if somebody else has it.</summary>
        public async Task<Guid> FreeIdAsync(Guid id, string ownerOf)
        {
            var owner = await Connection.QuerySingleOrDefaultAsync<Guid?>(ownerOf, new { id }, Transaction);
            return owner is null || owner == AccountId ? id : NewId.Next();
        }
    }
}
