using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology.Support;

/// <summary>Observed phenology with daily temperatures, kept beside the repository in ../shared/reference/phenology.</summary>
internal static class ReferencePhenology
{
    public const string Absent = "../shared/reference/phenology is absent: not tested against observed dates";

    public static string? Folder { get; } = Find();

    public static TemperatureSeries Weather(string dataset, string site) =>
        TemperatureSeries.From(Rows(dataset, "weather.csv")
            .Where(row => row["site"] == site && row["tmin_c"] != "")
            .Select(row => new DailyTemperature(Date(row["date"]), Number(row["tmin_c"]), Number(row["tmax_c"]))));

    /// <summary>Year to date of one series.</summary>
    public static IReadOnlyDictionary<int, LocalDate> Dates(string dataset, string site, string species, string phase) =>
        Rows(dataset, "observations.csv")
            .Where(row => row["site"] == site && row["species"] == species && row["phase"] == phase)
            .ToDictionary(row => int.Parse(row["year"], CultureInfo.InvariantCulture), row => Date(row["date"]));

    public static IEnumerable<IReadOnlyDictionary<string, string>> Rows(string dataset, string file)
    {
        using var reader = new StreamReader(Path.Combine(Folder!, dataset, file));
        using var csv = new CsvReader(reader, new CsvConfiguration(CultureInfo.InvariantCulture));
        csv.Read();
        csv.ReadHeader();
        while (csv.Read())
            yield return csv.HeaderRecord!.ToDictionary(name => name, name => csv.GetField(name) ?? "");
    }

    private static string? Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            var path = Path.Combine(folder.FullName, "shared", "reference", "phenology");
            if (Directory.Exists(path))
                return path;
        }
        return null;
    }

    public static LocalDate Date(string text) => LocalDatePattern.Iso.Parse(text).Value;

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}

/// <summary>A fact that needs the reference data and says so when it is skipped without.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class ReferenceFactAttribute : FactAttribute
{
    public ReferenceFactAttribute()
    {
        if (ReferencePhenology.Folder is null)
            Skip = ReferencePhenology.Absent;
    }
}

/// <summary>The same for a theory.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class ReferenceTheoryAttribute : TheoryAttribute
{
    public ReferenceTheoryAttribute()
    {
        if (ReferencePhenology.Folder is null)
            Skip = ReferencePhenology.Absent;
    }
}
