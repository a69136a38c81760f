using System.Data;
using System.Data.Common;
using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Weather;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Weather;

/// <summary>The daily weather of the cells. Thirty years of a cell are read in one query and written in one transaction.</summary>
internal sealed class DayStore(Database database)
{
    private const string Columns = "date, tmin_c, tmax_c, tmean_c, precip_mm, et0_mm, gust_kmh, kind, source, final, fetched_at";

    private static readonly (string Name, DbType Type)[] Values =
    [
        ("@date", DbType.String), ("@minC", DbType.Double), ("@maxC", DbType.Double), ("@meanC", DbType.Double), ("@precipMm", DbType.Double),
        ("@et0Mm", DbType.Double), ("@gustKmh", DbType.Double), ("@kind", DbType.String), ("@source", DbType.String), ("@final", DbType.Int64),
        ("@fetchedAt", DbType.String)
    ];

    /// <summary>Both days inclusive, ascending.</summary>
    public async Task<List<SourceDay>> ReadAsync(string cellKey, LocalDate from, LocalDate to, CancellationToken cancel)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await ReadAsync(connection, cellKey, from, to, cancel);
    }

    /// <summary>Keeps of each day the better version, and answers on how many days the weather changed.</summary>
    public async Task<int> MergeAsync(string cellKey, IReadOnlyList<SourceDay> days, LocalDate today, CancellationToken cancel)
    {
        if (days.Count == 0)
            return 0;
        await using var connection = await database.OpenAsync(cancel);
        await using var transaction = await database.BeginAsync(connection, cancel);
        var stored = (await ReadAsync(connection, cellKey, days.Min(day => day.Date), days.Max(day => day.Date), cancel))
            .ToDictionary(day => day.Date);
        var winners = new List<SourceDay>();
        var changed = 0;
        foreach (var day in days)
        {
            var old = stored.GetValueOrDefault(day.Date);
            if (DayRanking.Winner(old, day, today) is not { } winner)
                continue;
            winners.Add(winner);
            if (old is null || old.Kind != winner.Kind || !old.SameWeatherAs(winner))
                changed++;
        }
        await WriteAsync(connection, transaction, cellKey, winners, cancel);
        await transaction.CommitAsync(cancel);
        return changed;
    }

    private static async Task WriteAsync(
        DbConnection connection, DbTransaction transaction, string cellKey, List<SourceDay> days, CancellationToken cancel)
    {
        const string sql =
            $"""
            INSERT INTO cell_days (cell_key, {Columns})
            VALUES (@cellKey, @date, @minC, @maxC, @meanC, @precipMm, @et0Mm, @gustKmh, @kind, @source, @final, @fetchedAt)
            ON CONFLICT (cell_key, date) DO UPDATE SET
                tmin_c = excluded.tmin_c, tmax_c = excluded.tmax_c, tmean_c = excluded.tmean_c, precip_mm = excluded.precip_mm,
                et0_mm = excluded.et0_mm, gust_kmh = excluded.gust_kmh, kind = excluded.kind, source = excluded.source,
                final = excluded.final, fetched_at = excluded.fetched_at
            """;
        await using var command = connection.CreateCommand();
        (command.CommandText, command.Transaction) = (sql, transaction);
        Add(command, "@cellKey", cellKey);
        DbParameter[] values = [.. Values.Select(value => Add(command, value.Name, null, value.Type))];
        await command.PrepareAsync(cancel);
        foreach (var day in days)
        {
            object?[] row =
            [
                LocalDatePattern.Iso.Format(day.Date), day.MinC, day.MaxC, day.MeanC, day.PrecipMm, day.Et0Mm, day.GustKmh,
                day.Kind == DayKind.Observed ? "observed" : "forecast", day.Source, day.Final ? 1L : 0L,
                InstantPattern.ExtendedIso.Format(day.FetchedAt)
            ];
            for (var index = 0; index < row.Length; index++)
                values[index].Value = row[index] ?? DBNull.Value;
            await command.ExecuteNonQueryAsync(cancel);
        }
    }

    // Read and written by hand: a mapper costs several times as much on ten thousand rows.
    private static async Task<List<SourceDay>> ReadAsync(
        DbConnection connection, string cellKey, LocalDate from, LocalDate to, CancellationToken cancel)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = $"SELECT {Columns} FROM cell_days WHERE cell_key = @cellKey AND date BETWEEN @from AND @to ORDER BY date";
        Add(command, "@cellKey", cellKey);
        Add(command, "@from", LocalDatePattern.Iso.Format(from));
        Add(command, "@to", LocalDatePattern.Iso.Format(to));
        await using var reader = await command.ExecuteReaderAsync(cancel);
        var days = new List<SourceDay>();
        var fetched = ("", default(Instant));
        while (await reader.ReadAsync(cancel))
        {
            // Whole chunks were fetched at one moment, so the text seldom changes from row to row.
            var fetchedAt = reader.GetString(10);
            if (fetched.Item1 != fetchedAt)
                fetched = (fetchedAt, InstantPattern.ExtendedIso.Parse(fetchedAt).Value);
            days.Add(new SourceDay(
                Date(reader.GetString(0)), reader.GetDouble(1), reader.GetDouble(2), Number(reader, 3), Number(reader, 4),
                Number(reader, 5), Number(reader, 6), reader.GetString(7) == "observed" ? DayKind.Observed : DayKind.Forecast,
                reader.GetString(8), reader.GetInt64(9) != 0, fetched.Item2));
        }
        return days;
    }

    private static DbParameter Add(DbCommand command, string name, string? value, DbType type = DbType.String)
    {
        var parameter = command.CreateParameter();
        (parameter.ParameterName, parameter.DbType, parameter.Value) = (name, type, value ?? (object)DBNull.Value);
        command.Parameters.Add(parameter);
        return parameter;
    }

    private static LocalDate Date(string iso) => new(
        int.Parse(iso.AsSpan(0, 4), CultureInfo.InvariantCulture),
        int.Parse(iso.AsSpan(5, 2), CultureInfo.InvariantCulture),
        int.Parse(iso.AsSpan(8, 2), CultureInfo.InvariantCulture));

    private static double? Number(DbDataReader reader, int column) => reader.IsDBNull(column) ? null : reader.GetDouble(column);
}
