using System.Data.Common;
using Dapper;
using NodaTime;
using Scheduler.Service.Gardens;

namespace Scheduler.Service.Storage;

/// <summary>Reads and writes gardens. Every method takes the owner's account, so nobody reaches another's.</summary>
public sealed class GardenStore(Database database)
{
    internal const string Upsert =
        """
        INSERT INTO gardens (id, account_id, name, latitude, longitude, elevation_m, time_zone, hardiness_zone, temperature_offset_c,
            work_days, exceptions, first_frost_choice, water_assured, frost_free_shelter, recorded, created_at, changed_at)
        VALUES (@Id, @AccountId, @Name, @Latitude, @Longitude, @ElevationM, @TimeZone, @HardinessZone, @TemperatureOffsetC,
            @WorkDays, @Exceptions, @FirstFrostChoice, @WaterAssured, @FrostFreeShelter, @Recorded, @CreatedAt, @ChangedAt)
        ON CONFLICT (id) DO UPDATE SET name = excluded.name, latitude = excluded.latitude, longitude = excluded.longitude,
            elevation_m = excluded.elevation_m, time_zone = excluded.time_zone, hardiness_zone = excluded.hardiness_zone,
            temperature_offset_c = excluded.temperature_offset_c, work_days = excluded.work_days,
            exceptions = excluded.exceptions, first_frost_choice = excluded.first_frost_choice, water_assured = excluded.water_assured,
            frost_free_shelter = excluded.frost_free_shelter, recorded = excluded.recorded,
            created_at = excluded.created_at, changed_at = excluded.changed_at
        """;

    private const string Select =
        """
        SELECT g.id, g.account_id, g.name, g.latitude, g.longitude, g.elevation_m, g.time_zone, g.hardiness_zone, g.temperature_offset_c,
            g.work_days, g.exceptions, g.first_frost_choice, g.water_assured, g.frost_free_shelter, g.recorded, g.created_at, g.changed_at,
            c.time_zone AS cell_time_zone, c.elevation_m AS cell_elevation_m
        FROM gardens g LEFT JOIN cells c ON c.key = g.cell_key
        """;

    public async Task<Garden?> FindAsync(Guid accountId, Guid id, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await FindAsync(connection, null, accountId, id);
    }

    /// <summary>Every garden of everybody.</summary>
    public async Task<IReadOnlyList<Guid>> AllIdsAsync(CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return [.. await connection.QueryAsync<Guid>("SELECT id FROM gardens ORDER BY id")];
    }

    public async Task<IReadOnlyList<Garden>> ListAsync(Guid accountId, string after, int limit, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await ListAsync(connection, null, accountId, after, limit);
    }

    internal static async Task<IReadOnlyList<Garden>> ListAsync(
        DbConnection connection, DbTransaction? transaction, Guid accountId, string after, int limit)
    {
        var rows = await connection.QueryAsync<Row>(
            $"{Select} WHERE g.account_id = @accountId AND g.id > @after ORDER BY g.id LIMIT @limit", new { accountId, after, limit }, transaction);
        return [.. rows.Select(row => row.ToGarden())];
    }

    public async Task AddAsync(Garden garden, CancellationToken cancel = default)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(Upsert, ToRow(garden));
    }

    /// <summary>Reads, changes and writes in one go, so that no other change is lost in between. A change that gives null writes nothing.</summary>
    public async Task<(Garden? Before, Garden? After)> ChangeAsync(Guid accountId, Guid id, Func<Garden, Garden?> change, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(change);
        await using var connection = await database.OpenAsync(cancel);
        await using var transaction = await database.BeginAsync(connection, cancel);
        if (await FindAsync(connection, transaction, accountId, id) is not { } before)
            return (null, null);
        var after = change(before);
        if (after is not null)
            await connection.ExecuteAsync(Upsert, ToRow(after), transaction);
        await transaction.CommitAsync(cancel);
        return (before, after);
    }

    private static async Task<Garden?> FindAsync(DbConnection connection, DbTransaction? transaction, Guid accountId, Guid id)
    {
        var row = await connection.QuerySingleOrDefaultAsync<Row>(
            $"{Select} WHERE g.id = @id AND g.account_id = @accountId", new { accountId, id }, transaction);
        return row?.ToGarden();
    }

    internal static object ToRow(Garden garden) => new
    {
        garden.Id, garden.AccountId, garden.Name, garden.Latitude, garden.Longitude, garden.ElevationM, garden.TimeZone,
        garden.HardinessZone, garden.TemperatureOffsetC, WorkDays = Json.Write(garden.WorkDays), Exceptions = Json.Write(garden.Exceptions), garden.FirstFrostChoice,
        garden.WaterAssured, garden.FrostFreeShelter, garden.Recorded, garden.CreatedAt, garden.ChangedAt
    };

    private sealed class Row
    {
        public Guid Id { get; init; }
        public Guid AccountId { get; init; }
        public string Name { get; init; } = "";
        public double Latitude { get; init; }
        public double Longitude { get; init; }
        public double? ElevationM { get; init; }
        public string? TimeZone { get; init; }
        public string? HardinessZone { get; init; }
        public double? TemperatureOffsetC { get; init; }
        public string WorkDays { get; init; } = "[]";
        public string Exceptions { get; init; } = "[]";
        public string FirstFrostChoice { get; init; } = "";
        public bool? WaterAssured { get; init; }
        public bool? FrostFreeShelter { get; init; }
        public bool Recorded { get; init; }
        public Instant CreatedAt { get; init; }
        public Instant ChangedAt { get; init; }
        public string? CellTimeZone { get; init; }
        public double? CellElevationM { get; init; }

        public Garden ToGarden() => new()
        {
            Id = Id, AccountId = AccountId, Name = Name, Latitude = Latitude, Longitude = Longitude, ElevationM = ElevationM,
            TimeZone = TimeZone, HardinessZone = HardinessZone, TemperatureOffsetC = TemperatureOffsetC,
            WorkDays = Json.Read<IReadOnlyList<WorkDay>>(WorkDays), Exceptions = Json.Read<IReadOnlyList<DayException>>(Exceptions),
            FirstFrostChoice = FirstFrostChoice, WaterAssured = WaterAssured,
            FrostFreeShelter = FrostFreeShelter, Recorded = Recorded, CreatedAt = CreatedAt, ChangedAt = ChangedAt, CellTimeZone = CellTimeZone,
            CellElevationM = CellElevationM
        };
    }
}
