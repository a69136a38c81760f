using System.Data.Common;
using System.Text;
using Microsoft.Extensions.DependencyInjection;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Tests.Support;

/// <summary>All rows of all tables as text, to show that a request changed nothing, or what.</summary>
public static class DatabaseDump
{
    public static string Of(ServiceFactory factory)
    {
        ArgumentNullException.ThrowIfNull(factory);
        return Of(factory.Services.GetRequiredService<Database>());
    }

    public static string Of(Database database)
    {
        ArgumentNullException.ThrowIfNull(database);
        var dump = new StringBuilder();
        using var connection = database.OpenAsync().GetAwaiter().GetResult();
        foreach (var table in Tables.InOrder.Order(StringComparer.Ordinal))
        {
            dump.AppendLine(table);
            foreach (var row in Rows(connection, $"SELECT * FROM {table}").Order(StringComparer.Ordinal))
                dump.AppendLine(row);
        }
        return dump.ToString();
    }

    private static List<string> Rows(DbConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        using var reader = command.ExecuteReader();
        var rows = new List<string>();
        while (reader.Read())
            rows.Add(string.Join(" | ", Enumerable.Range(0, reader.FieldCount).Select(column => Text(reader.GetValue(column)))));
        return rows;
    }

    private static string Text(object value) => value is byte[] bytes ? Convert.ToHexStringLower(bytes) : FormattableString.Invariant($"{value}");
}
