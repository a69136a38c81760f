using System.Data.Common;
using System.Text.Json;

namespace Scheduler.Service.Storage.Backup;

/// <summary>One table as lines of JSON: the names of its columns, then an array a row. Bytes stand as an object with their base64 text.</summary>
internal static class TableRows
{
    private const string Bytes = "base64";

    public static async Task WriteAsync(DbConnection connection, DbTransaction moment, string table, TextWriter lines, CancellationToken cancel)
    {
        await using var command = connection.CreateCommand();
        (command.CommandText, command.Transaction) = ($"SELECT * FROM {table}", moment);
        await using var reader = await command.ExecuteReaderAsync(cancel);
        await lines.WriteAsync(JsonSerializer.Serialize(Enumerable.Range(0, reader.FieldCount).Select(reader.GetName)) + "\n");
        var row = new object?[reader.FieldCount];
        while (await reader.ReadAsync(cancel))
        {
            for (var column = 0; column < row.Length; column++)
            {
                row[column] = reader.GetValue(column) switch
                {
                    DBNull => null,
                    byte[] bytes => new Dictionary<string, string> { [Bytes] = Convert.ToBase64String(bytes) },
                    var value => value
                };
            }
            await lines.WriteAsync(JsonSerializer.Serialize(row) + "\n");
        }
    }

    /// <returns>How many rows were written.</returns>
    public static async Task<int> ReadAsync(DbConnection connection, DbTransaction transaction, string table, TextReader lines, CancellationToken cancel)
    {
        if (await lines.ReadLineAsync(cancel) is not { } header)
            return 0;
        var columns = JsonSerializer.Deserialize<string[]>(header)!;
        await using var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText =
            $"INSERT INTO {table} ({string.Join(", ", columns.Select(Quoted))}) VALUES ({string.Join(", ", columns.Select((_, column) => $"@p{column}"))})";
        var count = 0;
        for (; await lines.ReadLineAsync(cancel) is { } line; count++)
        {
            using var row = JsonDocument.Parse(line);
            command.Parameters.Clear();
            foreach (var (column, value) in row.RootElement.EnumerateArray().Index())
            {
                var parameter = command.CreateParameter();
                (parameter.ParameterName, parameter.Value) = ($"@p{column}", ValueOf(value));
                command.Parameters.Add(parameter);
            }
            await command.ExecuteNonQueryAsync(cancel);
        }
        return count;
    }

    private static object ValueOf(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Null => DBNull.Value,
        JsonValueKind.Number => value.TryGetInt64(out var whole) ? whole : value.GetDouble(),
        JsonValueKind.Object => value.GetProperty(Bytes).GetBytesFromBase64(),
        _ => value.GetString()!
    };

    private static string Quoted(string column) => $"\"{column.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
