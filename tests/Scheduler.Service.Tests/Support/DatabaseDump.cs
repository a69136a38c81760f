using System.Text;
using Microsoft.Data.Sqlite;

namespace Scheduler.Service.Tests.Support;

/// <summary>All rows of all tables as text, to show that a request changed nothing, or what.</summary>
public static class DatabaseDump
{
    public static string Of(ServiceFactory factory)
    {
        var dump = new StringBuilder();
        using var connection = new SqliteConnection($"Data Source={Path.Combine(factory.Folder, "scheduler.db")}");
        connection.Open();
        foreach (var table in Rows(connection, "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name"))
        {
            dump.AppendLine(table);
            foreach (var row in Rows(connection, $"SELECT * FROM \"{table}\"").Order(StringComparer.Ordinal))
                dump.AppendLine(row);
        }
        return dump.ToString();
    }

    private static List<string> Rows(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        using var reader = command.ExecuteReader();
        var rows = new List<string>();
        while (reader.Read())
            rows.Add(string.Join(" | ", Enumerable.Range(0, reader.FieldCount).Select(reader.GetValue)));
        return rows;
    }
}
