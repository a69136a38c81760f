using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using NodaTime;
using NodaTime.Text;

namespace Scheduler.Service.Hindcast;

/// <summary>Writes the answers in the order asked; the file is there as a whole or not at all.</summary>
internal static class AnswersFile
{
    private static readonly string[] Header = ["site", "species", "phase", "year", "issued_on", "predicted_date", "p10", "p90"];

    public static void Write(string path, IEnumerable<Answer> answers)
    {
        var draft = $"{path}.{Environment.ProcessId}.part";
        try
        {
            using (var csv = new CsvWriter(new StreamWriter(draft), new CsvConfiguration(CultureInfo.InvariantCulture) { NewLine = "\n" }))
            {
                Line(csv, Header);
                foreach (var (question, early, likely, late) in answers)
                {
                    Line(csv,
                        question.Series.Site, question.Series.Kind, question.Series.Phase, question.Year.ToString(CultureInfo.InvariantCulture),
                        Text(question.IssuedOn), Text(likely), Text(early), Text(late));
                }
            }
            File.Move(draft, path, overwrite: true);
        }
        finally
        {
            File.Delete(draft);
        }
    }

    private static void Line(CsvWriter csv, params string[] fields)
    {
        foreach (var field in fields)
            csv.WriteField(field);
        csv.NextRecord();
    }

    private static string Text(LocalDate? date) => date is { } day ? LocalDatePattern.Iso.Format(day) : "";
}
