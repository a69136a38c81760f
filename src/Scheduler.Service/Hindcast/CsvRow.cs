using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Scheduler.Service.Hindcast;

/// <summary>
/// One line of an input file, read column by column. Each reading method notes what is wrong and answers null, so that one
/// pass finds every fault.
/// </summary>
internal readonly ref struct CsvRow(string file, int line, IReadOnlyDictionary<string, int> columns, string[] fields, InputFaults faults)
{
    private const int EarliestYear = 1000;
    private const int LatestYear = 3000;

    public int Line => line;

    /// <summary>The field without blanks around it; empty where the line or the file has no such column.</summary>
    public string Raw(string column) => columns.TryGetValue(column, out var at) && at < fields.Length ? fields[at].Trim() : "";

    public string? Name(string column)
    {
        if (Raw(column) is { Length: > 0 } text)
            return text;
        Fault(column, "is empty", "Write a name.");
        return null;
    }

    public LocalDate? Date(string column)
    {
        if (LocalDatePattern.Iso.Parse(Raw(column)).TryGetValue(default, out var date) && date.Year is >= EarliestYear and <= LatestYear)
            return date;
        Fault(column, "is not a date", "Write it as 2004-05-31.");
        return null;
    }

    public LocalDate? OptionalDate(string column) => Raw(column).Length == 0 ? null : Date(column);

    public int? Year(string column)
    {
        if (int.TryParse(Raw(column), NumberStyles.None, CultureInfo.InvariantCulture, out var year) && year is >= EarliestYear and <= LatestYear)
            return year;
        Fault(column, "is not a year", "Write it as 2004.");
        return null;
    }

    public double? Number(string column, double low, double high)
    {
        if (double.TryParse(Raw(column), NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && number >= low && number <= high)
            return number;
        Fault(column, "is not a number in range", string.Create(CultureInfo.InvariantCulture, $"Write a number from {low} to {high} with a point, such as 12.5."));
        return null;
    }

    public void Fault(string column, string problem, string remedy) => faults.Add(new(file, line, column, Raw(column), problem, remedy));
}
