using System.Data.Common;
using Dapper;
using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Gardens;
using Scheduler.Service.Roads;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Accounts;

/// <summary>Writes an account down as one document. The same account gives the same bytes, in whatever order its rows lie.</summary>
public sealed class AccountExport(Database database, RoadParts roads)
{
    private const int All = int.MaxValue;

    public async Task<AccountDocument?> ReadAsync(Guid accountId, CancellationToken cancel)
    {
        await using var connection = await database.OpenAsync(cancel);
        // One transaction, so that the document shows one moment.
        await using var moment = await database.BeginMomentAsync(connection, cancel);
        var account = await connection.QuerySingleOrDefaultAsync<Account>("SELECT id, name, units, language, created_at FROM accounts WHERE id = @accountId", new { accountId }, moment);
        if (account is null)
            return null;
        var gardens = await GardenStore.ListAsync(connection, moment, accountId, "", All);
        var parts = new List<GardenPart>();
        foreach (var garden in gardens)
            parts.Add(await PartAsync(connection, moment, garden));
        var own = gardens.Select(garden => garden.Id).ToHashSet();
        var feeds = await connection.QueryAsync<FeedRow>(
            "SELECT id, name, garden_ids, techniques, content, reminders, gathered, span, begins_at, created_at FROM feeds WHERE account_id = @accountId ORDER BY id",
            new { accountId }, moment);
        return new AccountDocument(
            AccountDocument.FormatName, AccountDocument.CurrentVersion, account.Name, parts, [.. feeds.Select(feed => feed.ToPart(own))],
            SettingFields.Shown(await AccountStore.SettingsAsync(connection, moment, accountId)),
            await roads.ExportAsync(connection, moment, accountId, own), account.Units, account.Language);
    }

    private static async Task<GardenPart> PartAsync(DbConnection connection, DbTransaction moment, Garden garden)
    {
        var gardenId = garden.Id;
        var readings = await connection.QueryAsync<ReadingRow>(
            "SELECT date, tmin_c, tmax_c FROM readings WHERE garden_id = @gardenId ORDER BY date", new { gardenId }, moment);
        var trees = await TreeStore.OfGardenAsync(connection, moment, garden.AccountId, gardenId, "", All);
        var work = (await connection.QueryAsync<LogRow>(
            "SELECT w.tree_id, w.body FROM work w JOIN trees t ON t.id = w.tree_id WHERE t.garden_id = @gardenId ORDER BY w.date, w.id",
            new { gardenId }, moment)).ToLookup(row => row.TreeId, row => row.Body);
        var seen = (await connection.QueryAsync<LogRow>(
            "SELECT tree_id, body FROM observations WHERE garden_id = @gardenId ORDER BY date, id", new { gardenId }, moment))
            .ToLookup(row => row.TreeId, row => row.Body);
        var dismissed = (await PromiseStore.DismissedAsync(connection, moment, gardenId)).ToLookup(row => row.TreeId);
        return new GardenPart(
            new GardenItem(
                garden.Id, garden.Name, garden.Latitude, garden.Longitude, garden.ElevationM, garden.TimeZone, garden.HardinessZone,
                garden.TemperatureOffsetC, garden.WorkDays, garden.Exceptions, garden.FirstFrostChoice, garden.WaterAssured, garden.FrostFreeShelter,
                garden.Recorded, garden.CreatedAt, garden.ChangedAt),
            [.. readings.Select(row => new ReadingItem(row.Date, row.TminC, row.TmaxC))],
            [.. seen[null].Select(Json.Read<BenchObservation>)],
            [.. trees.Select(tree => new TreePart(
                TreeAnswer.Of(tree), [.. work[tree.Tree.Id].Select(Json.Read<WorkRecord>)], [.. seen[tree.Tree.Id].Select(Json.Read<Observation>)],
                [.. dismissed[tree.Tree.Id].Select(row => new DismissedItem(row.WorkId, row.What, row.Technique))]))]);
    }

    private sealed class ReadingRow
    {
        public LocalDate Date { get; init; }
        public double TminC { get; init; }
        public double TmaxC { get; init; }
    }

    private sealed class LogRow
    {
        public Guid? TreeId { get; init; }
        public string Body { get; init; } = "";
    }

    private sealed class FeedRow
    {
        public Guid Id { get; init; }
        public string Name { get; init; } = "";
        public string? GardenIds { get; init; }
        public string? Techniques { get; init; }
        public string Content { get; init; } = "";
        public string Reminders { get; init; } = "[]";
        public string Gathered { get; init; } = "";
        public string Span { get; init; } = "";
        public string? BeginsAt { get; init; }
        public Instant CreatedAt { get; init; }

        public FeedPart ToPart(HashSet<Guid> own) => new(
            Id, Name, GardenIds is null ? null : [.. Json.Read<List<Guid>>(GardenIds).Where(own.Contains)],
            Techniques is null ? null : Json.Read<List<string>>(Techniques), Content, Json.Read<List<string>>(Reminders), CreatedAt)
        {
            Gathered = Gathered, Span = Span, At = BeginsAt
        };
    }
}
