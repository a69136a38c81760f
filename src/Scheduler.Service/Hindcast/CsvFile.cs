using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;

namespace Scheduler.Service.Hindcast;

/// <summary>A comma-separated file with a header (RFC 4180, UTF-8 with or without a mark); columns nobody asks for are ignored.</summary>
internal static class CsvFile
{
    public delegate void RowReader(CsvRow row);

    /// <param name="required">Columns that the header must name.</param>
    public static void Read(string path, IReadOnlyList<string> required, InputFaults faults, RowReader read)
    {
        try
        {
            using var text = new StreamReader(path, new UTF8Encoding(false, throwOnInvalidBytes: true), detectEncodingFromByteOrderMarks: true);
            Read(text, path, required, faults, read);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            faults.Add(new(path, 0, "", null, $"cannot be read: {problem.Message}", "Name a file that exists and is readable."));
        }
        catch (DecoderFallbackException)
        {
            faults.Add(new(path, 0, "", null, "is not UTF-8 text", "Save it as UTF-8."));
        }
    }

    private static void Read(TextReader text, string path, IReadOnlyList<string> required, InputFaults faults, RowReader read)
    {
        var isBad = false;
        using var parser = new CsvParser(text, new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            BadDataFound = _ => isBad = true,
            IgnoreBlankLines = true
        });
        if (!parser.Read())
        {
            faults.Add(new(path, 0, "", null, "is empty", $"Begin it with the line {string.Join(',', required)}."));
            return;
        }
        if (Columns(parser.Record!, path, required, faults) is not { } columns)
            return;
        while (parser.Read())
        {
            // Fields are looked at, and found bad, only when the record is asked for.
            var (line, fields) = (parser.RawRow, parser.Record!);
            if (isBad)
            {
                faults.Add(new(path, line, "", null, "has a stray quote", "Put quotes around the whole field and double those inside it."));
                isBad = false;
                continue;
            }
            read(new CsvRow(path, line, columns, fields, faults));
        }
    }

    private static Dictionary<string, int>? Columns(string[] header, string path, IReadOnlyList<string> required, InputFaults faults)
    {
        var columns = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        for (var at = 0; at < header.Length; at++)
            columns.TryAdd(header[at].Trim(), at);
        var missing = required.Where(name => !columns.ContainsKey(name)).ToList();
        foreach (var name in missing)
            faults.Add(new(path, 1, name, null, "is not among the columns", $"Begin the file with the line {string.Join(',', required)}."));
        return missing.Count == 0 ? columns : null;
    }
}
