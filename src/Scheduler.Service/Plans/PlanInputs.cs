using Dapper;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Plans;

/// <summary>A garden as planning sees it.</summary>
public sealed record GardenSite
{
    public Guid Id { get; init; }
    public Guid AccountId { get; init; }
    public string Name { get; init; } = "";
    public double Latitude { get; init; }
    public string? TimeZone { get; init; }
    /// <summary>Set by the owner; null: it follows from the weather.</summary>
    public string? HardinessZone { get; init; }
    public double? TemperatureOffsetC { get; init; }
    /// <summary>JSON, as stored.</summary>
    public string WorkDays { get; init; } = "[]";
    /// <summary>JSON, as stored.</summary>
    public string Exceptions { get; init; } = "[]";
    public string FirstFrostChoice { get; init; } = "average";
    public bool? WaterAssured { get; init; }
    public bool? FrostFreeShelter { get; init; }
}

/// <summary>What the owner reported of the benches on one day; null: not looked at.</summary>
public sealed record BenchFacts(LocalDate Date, bool? SoilDry, bool? WoodFrozen, double? RootBallC, double? RoomMinC, double? RoomMaxC);

/// <summary>Everything stored that planning a garden needs, read in one go.</summary>
public sealed record PlanInputs(
    GardenSite Garden,
    IReadOnlyList<Tree> Trees,
    ILookup<Guid, WorkRecord> Work,
    ILookup<Guid, Observation> Observations,
    IReadOnlyList<BenchFacts> Bench)
{
    /// <summary>Ids of the promises that the owner let go, by tree.</summary>
    public ILookup<Guid, Guid> Dismissed { get; init; } = Array.Empty<Guid>().ToLookup(id => id);

    /// <summary>The account's choices where practice disagrees.</summary>
    public IReadOnlyDictionary<string, string> AccountSettings { get; init; } = new Dictionary<string, string>();

    /// <summary>The same with what the account chose filled into every tree that says nothing else.</summary>
    public PlanInputs Under(PracticeSettings points)
    {
        ArgumentNullException.ThrowIfNull(points);
        return this with { Trees = [.. Trees.Select(tree => tree with { Settings = points.Merge(AccountSettings, tree.Settings) })] };
    }
}

/// <summary>Reads <see cref="PlanInputs"/>.</summary>
public sealed class PlanInputStore(Database database)
{
    public async Task<PlanInputs?> ReadAsync(Guid gardenId, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        var garden = await connection.QuerySingleOrDefaultAsync<GardenSite>("SELECT * FROM gardens WHERE id = @gardenId", new { gardenId });
        if (garden is null)
            return null;
        var trees = await connection.QueryAsync<string>("SELECT body FROM trees WHERE garden_id = @gardenId ORDER BY id", new { gardenId });
        var work = await connection.QueryAsync<Row>(
            "SELECT work.tree_id, work.body FROM work JOIN trees ON trees.id = work.tree_id WHERE trees.garden_id = @gardenId ORDER BY work.date, work.id", new { gardenId });
        var seen = (await connection.QueryAsync<Row>(
            "SELECT tree_id, body FROM observations WHERE garden_id = @gardenId ORDER BY date, id", new { gardenId })).ToList();
        return new PlanInputs(
            garden,
            [.. trees.Select(Json.Read<Tree>)],
            work.ToLookup(row => row.TreeId!.Value, row => Json.Read<WorkRecord>(row.Body)),
            seen.Where(row => row.TreeId is not null).ToLookup(row => row.TreeId!.Value, row => Json.Read<Observation>(row.Body)),
            [.. seen.Where(row => row.TreeId is null).Select(row => Json.Read<BenchFacts>(row.Body))])
        {
            AccountSettings = await AccountStore.SettingsAsync(connection, null, garden.AccountId),
            Dismissed = (await PromiseStore.DismissedAsync(connection, null, gardenId)).ToLookup(row => row.TreeId, row => row.Id)
        };
    }

    private sealed class Row
    {
        public Guid? TreeId { get; init; }
        public string Body { get; init; } = "";
    }
}
