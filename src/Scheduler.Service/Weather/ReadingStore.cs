using Dapper;
using NodaTime;
using Scheduler.Domain.Weather;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Weather;

/// <summary>The owners' own minimum and maximum thermometers, a garden and day.</summary>
internal sealed class ReadingStore(Database database)
{
    /// <summary>All readings of a garden, ascending.</summary>
    public async Task<IReadOnlyList<DailyTemperature>> ReadAsync(Guid gardenId, CancellationToken cancel)
    {
        await using var connection = await database.OpenAsync(cancel);
        var rows = await connection.QueryAsync<(LocalDate Date, double MinC, double MaxC)>(new CommandDefinition(
            "SELECT date, tmin_c, tmax_c FROM readings WHERE garden_id = @gardenId ORDER BY date", new { gardenId }, cancellationToken: cancel));
        return [.. rows.Select(row => new DailyTemperature(row.Date, row.MinC, row.MaxC))];
    }

    /// <summary>All or nothing; a date that is there already is replaced.</summary>
    public async Task SaveAsync(Guid gardenId, IEnumerable<DailyTemperature> readings, CancellationToken cancel)
    {
        await using var connection = await database.OpenAsync(cancel);
        await using var transaction = await database.BeginAsync(connection, cancel);
        await connection.ExecuteAsync(new CommandDefinition(
            """
            INSERT INTO readings (garden_id, date, tmin_c, tmax_c) VALUES (@gardenId, @Date, @MinC, @MaxC)
            ON CONFLICT (garden_id, date) DO UPDATE SET tmin_c = excluded.tmin_c, tmax_c = excluded.tmax_c
            """,
            readings.Select(reading => new { gardenId, reading.Date, reading.MinC, reading.MaxC }), transaction, cancellationToken: cancel));
        await transaction.CommitAsync(cancel);
    }
}
