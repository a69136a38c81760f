using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace Scheduler.Domain.Tests.PublishedValues;

/// <summary>A CSV of numbers our code did not produce. Its first lines, beginning with #, name the source.</summary>
public static class PublishedTable
{
    public static TheoryData<PublishedRow> Theory(string file) => [.. Rows(file)];

    public static IReadOnlyList<PublishedRow> Rows(string file)
    {
        var path = Path.Combine(AppContext.BaseDirectory, "PublishedValues", file);
        var settings = new CsvConfiguration(CultureInfo.InvariantCulture) { AllowComments = true, Comment = '#' };
        using var csv = new CsvReader(new StreamReader(path), settings);
        csv.Read();
        csv.ReadHeader();
        var rows = new List<PublishedRow>();
        while (csv.Read())
            rows.Add(new PublishedRow(csv.HeaderRecord!.Zip(csv.Parser.Record!).ToDictionary(pair => pair.First, pair => pair.Second)));
        Assert.NotEmpty(rows);
        return rows;
    }
}

/// <summary>One line of a published table, by column name.</summary>
public sealed class PublishedRow(IReadOnlyDictionary<string, string> cells)
{
    public string Text(string column) => cells[column];

    public double Number(string column) => double.Parse(cells[column], CultureInfo.InvariantCulture);

    /// <summary>Null where the cell is empty.</summary>
    public double? NumberIfAny(string column) => cells[column].Length == 0 ? null : Number(column);

    public int Whole(string column) => int.Parse(cells[column], CultureInfo.InvariantCulture);

    public double[] Numbers(string column) =>
        [.. cells[column].Split(';').Select(number => double.Parse(number, CultureInfo.InvariantCulture))];

    public override string ToString() => string.Join(' ', cells.Select(cell => $"{cell.Key}={cell.Value}"));
}
