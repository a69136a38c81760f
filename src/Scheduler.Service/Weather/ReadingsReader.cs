using System.Globalization;
using System.Text;
using System.Text.Json;
using CsvHelper;
using CsvHelper.Configuration;
using NodaTime;
using NodaTime.Text;

namespace Scheduler.Service.Weather;

/// <summary>Reads the owner's readings from CSV or JSON, line by line, so that a bad line spoils no other.</summary>
internal static class ReadingsReader
{
    private const string Header = "date,tmin_c,tmax_c";

    /// <summary>The rows, or what is wrong with the whole body.</summary>
    public static (ReadingRows? Rows, string? Fault) ReadCsv(byte[] body, LocalDate today)
    {
        var text = Encoding.UTF8.GetString(body).TrimStart('\uFEFF');
        var firstLine = text.Split('\r', '\n')[0];
        var delimiter = firstLine.Contains(';') ? ";" : ",";
        using var reader = new CsvReader(new StringReader(text), new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = delimiter,
            // A stray quote must not swallow the lines that follow it.
            Mode = CsvMode.NoEscape,
            TrimOptions = TrimOptions.Trim,
            PrepareHeaderForMatch = header => Bare(header.Header).ToLowerInvariant(),
            MissingFieldFound = null
        });
        if (!reader.Read() || !reader.ReadHeader() || Columns(reader) is not { } columns)
            return (null, $"The first line must name the columns {Header}, parted by commas or semicolons.");
        var rows = new ReadingRows(today);
        while (reader.Read())
        {
            var line = reader.Parser.RawRow;
            if (reader.Parser.Count != columns.Count)
                rows.Reject(line, $"The line has {reader.Parser.Count} fields, the header {columns.Count}.");
            else
                rows.Add(
                    line, Date(Bare(reader.GetField(columns.Date) ?? "")), Number(reader.GetField(columns.Min), delimiter),
                    Number(reader.GetField(columns.Max), delimiter));
        }
        return (rows, null);
    }

    /// <summary>An array of <c>{date, tminC, tmaxC}</c>; an item's place in it, from 1, stands for its line.</summary>
    public static (ReadingRows? Rows, string? Fault) ReadJson(byte[] body, LocalDate today)
    {
        try
        {
            using var document = JsonDocument.Parse(body.AsMemory(body.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? 3 : 0));
            if (document.RootElement.ValueKind != JsonValueKind.Array)
                return (null, "The body must be an array of objects with date, tminC and tmaxC.");
            var rows = new ReadingRows(today);
            var line = 0;
            foreach (var item in document.RootElement.EnumerateArray())
            {
                line++;
                if (item.ValueKind != JsonValueKind.Object)
                    rows.Reject(line, "The item must be an object with date, tminC and tmaxC.");
                else
                    rows.Add(line, Date(Text(item, "date")), Number(item, "tminC"), Number(item, "tmaxC"));
            }
            return (rows, null);
        }
        catch (JsonException fault)
        {
            return (null, $"The body is no valid JSON: there is a mistake at line {fault.LineNumber + 1}, byte {fault.BytePositionInLine + 1}.");
        }
    }

    private sealed record ColumnsFound(int Date, int Min, int Max, int Count);

    private static ColumnsFound? Columns(CsvReader reader)
    {
        var names = reader.HeaderRecord!.Select(name => Bare(name).ToLowerInvariant()).ToList();
        int date = names.IndexOf("date"), min = names.IndexOf("tmin_c"), max = names.IndexOf("tmax_c");
        return date < 0 || min < 0 || max < 0 ? null : new ColumnsFound(date, min, max, names.Count);
    }

    private static LocalDate? Date(string? text) =>
        text is not null && LocalDatePattern.Iso.Parse(text).TryGetValue(default, out var date) ? date : null;

    // A comma can only be a decimal sign where it does not part the fields.
    private static double? Number(string? text, string delimiter)
    {
        var bare = Bare(text ?? "");
        if (delimiter == ";")
            bare = bare.Replace(',', '.');
        return double.TryParse(bare, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            ? number : null;
    }

    private static string Bare(string field) => field.Trim().Trim('"').Trim();

    private static string? Text(JsonElement item, string name) =>
        item.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static double? Number(JsonElement item, string name) =>
        item.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;
}
