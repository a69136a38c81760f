using Dapper;
using NodaTime;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Weather;

/// <summary>What the weather needs to know of a garden.</summary>
internal sealed class WeatherGarden
{
    public required Guid Id { get; init; }
    public required double Latitude { get; init; }
    public required double Longitude { get; init; }
    public double? ElevationM { get; init; }
    public string? TimeZone { get; init; }
    public bool Recorded { get; init; }
    public string? CellKey { get; init; }
    public LocalDate? PlannedFor { get; init; }
}

/// <summary>Cells and the gardens in them.</summary>
internal sealed class WeatherStore(Database database)
{
    private const string CellColumns =
        "key, latitude, longitude, elevation_m, time_zone, utc_offset_hours, wanted_from, filled_from, refreshed_at, finalized_at, "
        + "last_error, archive_error, fallback_expires_at, fallback_last_modified";

    private const string GardenColumns = "id, latitude, longitude, elevation_m, time_zone, recorded, cell_key, planned_for";

    public Task<WeatherGarden?> GardenAsync(Guid id, CancellationToken cancel) =>
        OneAsync<WeatherGarden>($"SELECT {GardenColumns} FROM gardens WHERE id = @id", new { id }, cancel);

    public async Task<bool> OwnsAsync(Guid accountId, Guid gardenId, CancellationToken cancel) =>
        await OneAsync<int?>("SELECT 1 FROM gardens WHERE id = @gardenId AND account_id = @accountId", new { gardenId, accountId }, cancel) == 1;

    public Task<IReadOnlyList<WeatherGarden>> GardensAsync(CancellationToken cancel) =>
        ManyAsync<WeatherGarden>($"SELECT {GardenColumns} FROM gardens", new { }, cancel);

    public Task<IReadOnlyList<Guid>> GardensOfCellAsync(string cellKey, CancellationToken cancel) =>
        ManyAsync<Guid>("SELECT id FROM gardens WHERE cell_key = @cellKey ORDER BY id", new { cellKey }, cancel);

    /// <summary>Sets the cell, and zone and height only where they are unknown: what the owner set stays.</summary>
    public Task AttachAsync(Guid gardenId, string? cellKey, string? timeZone, double? elevationM, CancellationToken cancel) =>
        WriteAsync(
            """
            UPDATE gardens SET cell_key = @cellKey, time_zone = COALESCE(time_zone, @timeZone), elevation_m = COALESCE(elevation_m, @elevationM)
            WHERE id = @gardenId
            """,
            new { gardenId, cellKey, timeZone, elevationM }, cancel);

    public Task<WeatherCell?> CellAsync(string key, CancellationToken cancel) =>
        OneAsync<WeatherCell>($"SELECT {CellColumns} FROM cells WHERE key = @key", new { key }, cancel);

    /// <summary>Cells that some garden lies in; others keep their days but cost no calls.</summary>
    public Task<IReadOnlyList<WeatherCell>> CellsInUseAsync(CancellationToken cancel) =>
        ManyAsync<WeatherCell>(
            $"SELECT {CellColumns} FROM cells WHERE key IN (SELECT cell_key FROM gardens WHERE recorded = 0) ORDER BY key", new { }, cancel);

    public Task AddCellAsync(WeatherCell cell, CancellationToken cancel) =>
        WriteAsync(
            """
            INSERT INTO cells (key, latitude, longitude, elevation_m, time_zone, utc_offset_hours, wanted_from)
            VALUES (@Key, @Latitude, @Longitude, @ElevationM, @TimeZone, @UtcOffsetHours, @WantedFrom)
            ON CONFLICT (key) DO NOTHING
            """,
            cell, cancel);

    /// <summary>What a source said of the place; the gardens of the cell that know no zone or height learn it too.</summary>
    public async Task SetPlaceAsync(string key, string? timeZone, int utcOffsetHours, double? elevationM, CancellationToken cancel)
    {
        await WriteAsync(
            """
            UPDATE cells SET time_zone = @timeZone, utc_offset_hours = @utcOffsetHours, elevation_m = COALESCE(@elevationM, elevation_m)
            WHERE key = @key
            """,
            new { key, timeZone, utcOffsetHours, elevationM }, cancel);
        await WriteAsync(
            """
            UPDATE gardens SET time_zone = COALESCE(time_zone, @timeZone), elevation_m = COALESCE(elevation_m, @elevationM)
            WHERE cell_key = @key
            """,
            new { key, timeZone, elevationM }, cancel);
    }

    public Task SetElevationIfUnknownAsync(string key, double elevationM, CancellationToken cancel) =>
        WriteAsync("UPDATE cells SET elevation_m = @elevationM WHERE key = @key AND elevation_m IS NULL", new { key, elevationM }, cancel);

    public Task SetRefreshedAsync(string key, Instant at, string? problem, CancellationToken cancel) =>
        WriteAsync("UPDATE cells SET refreshed_at = @at, last_error = @problem WHERE key = @key", new { key, at, problem }, cancel);

    public Task SetProblemAsync(string key, string? problem, CancellationToken cancel) =>
        WriteAsync("UPDATE cells SET last_error = @problem WHERE key = @key", new { key, problem }, cancel);

    public Task SetArchiveProblemAsync(string key, string? problem, CancellationToken cancel) =>
        WriteAsync("UPDATE cells SET archive_error = @problem WHERE key = @key", new { key, problem }, cancel);

    public Task SetFilledAsync(string key, LocalDate from, CancellationToken cancel) =>
        WriteAsync("UPDATE cells SET filled_from = @from WHERE key = @key", new { key, from }, cancel);

    public Task SetFinalizedAsync(string key, Instant at, CancellationToken cancel) =>
        WriteAsync("UPDATE cells SET finalized_at = @at WHERE key = @key", new { key, at }, cancel);

    public Task SetFallbackAgeAsync(string key, Instant? expiresAt, string? lastModified, CancellationToken cancel) =>
        WriteAsync(
            "UPDATE cells SET fallback_expires_at = @expiresAt, fallback_last_modified = @lastModified WHERE key = @key",
            new { key, expiresAt, lastModified }, cancel);

    private async Task<T?> OneAsync<T>(string sql, object parameters, CancellationToken cancel)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.QuerySingleOrDefaultAsync<T>(new CommandDefinition(sql, parameters, cancellationToken: cancel));
    }

    private async Task<IReadOnlyList<T>> ManyAsync<T>(string sql, object parameters, CancellationToken cancel)
    {
        await using var connection = await database.OpenAsync(cancel);
        return [.. await connection.QueryAsync<T>(new CommandDefinition(sql, parameters, cancellationToken: cancel))];
    }

    private async Task WriteAsync(string sql, object parameters, CancellationToken cancel)
    {
        await using var connection = await database.OpenAsync(cancel);
        await connection.ExecuteAsync(new CommandDefinition(sql, parameters, cancellationToken: cancel));
    }
}
