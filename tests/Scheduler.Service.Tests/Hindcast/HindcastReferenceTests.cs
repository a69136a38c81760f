using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Service.Hindcast;
using Xunit.Abstractions;

namespace Scheduler.Service.Tests.Hindcast;

/// <summary>
/// The command on observed dates: the first 65 % of each series' years are given, the later ones asked with the whole season's weather.
/// </summary>
/// <remarks>
/// Records of ../shared/reference/phenology: peak bloom of cherries (Aono; MeteoSwiss; National Park Service), Harvard Forest HF003 (O'Keefe).
/// The bars are those the clock was asked to meet.
/// </remarks>
public class HindcastReferenceTests(ITestOutputHelper output)
{
    private const double ShareToLearn = 0.65;

    [ReferenceTheory]
    [InlineData("cherry_bloom", 2.3)]
    [InlineData("harvard_forest", 2.9)]
    public void LaterYears_AreDatedWithinTheBar(string dataset, double barDays)
    {
        var source = Path.Combine(ReferencePhenology.Folder!, dataset);
        var folder = Directory.CreateTempSubdirectory("hindcast-");
        try
        {
            var (learn, judge) = Split(Path.Combine(source, "observations.csv"));
            string Named(string file) => Path.Combine(folder.FullName, file);
            File.WriteAllLines(Named("learn.csv"), ["site,species,phase,year,date", .. learn.Select(row => string.Join(',', row))]);
            File.WriteAllLines(Named("asked.csv"), ["site,species,phase,year", .. judge.Select(row => string.Join(',', row[..4]))]);
            using var errors = new StringWriter();

            var code = HindcastCommand.Run(
                ["--weather", Path.Combine(source, "weather.csv"), "--sites", Path.Combine(source, "sites.csv"),
                    "--observations", Named("learn.csv"), "--asked", Named("asked.csv"), "--out", Named("out.csv")], errors);

            Assert.True(code == 0, errors.ToString());
            var answers = File.ReadAllLines(Named("out.csv")).Skip(1).Select(line => line.Split(',')).ToList();
            Assert.Equal(judge.Count, answers.Count);
            var off = answers.Zip(judge, (answer, seen) => Math.Abs(Period.DaysBetween(Date(seen[4]), Date(answer[5])))).ToList();
            var inside = answers.Zip(judge, (answer, seen) => Date(answer[6]) <= Date(seen[4]) && Date(seen[4]) <= Date(answer[7]) ? 1d : 0).Average();
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{dataset}: {off.Average():f2} days off on the mean, {inside:f2} inside, {off.Count} dates"));
            Assert.True(off.Average() <= barDays);
            Assert.InRange(inside, 0.75, 0.95);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static (List<string[]> Learn, List<string[]> Judge) Split(string path)
    {
        var header = File.ReadLines(path).First().TrimStart('\uFEFF').Split(',');
        string[] wanted = ["site", "species", "phase", "year", "date"];
        var columns = wanted.Select(name => Array.IndexOf(header, name)).ToArray();
        // Neither of these files quotes a field.
        var rows = File.ReadLines(path).Skip(1).Select(line => line.Split(',')).Select(row => columns.Select(column => row[column]).ToArray());
        var (learn, judge) = (new List<string[]>(), new List<string[]>());
        foreach (var series in rows.GroupBy(row => (row[0], row[1], row[2])))
        {
            var years = series.OrderBy(row => row[3], StringComparer.Ordinal).ToList();
            var count = (int)Math.Ceiling(years.Count * ShareToLearn);
            learn.AddRange(years.Take(count));
            judge.AddRange(years.Skip(count));
        }
        return (learn, judge);
    }

    private static LocalDate Date(string text) => LocalDatePattern.Iso.Parse(text).Value;
}

/// <summary>A theory that needs the reference data and says so when it is skipped without.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class ReferenceTheoryAttribute : TheoryAttribute
{
    public ReferenceTheoryAttribute()
    {
        if (ReferencePhenology.Folder is null)
            Skip = ReferencePhenology.Absent;
    }
}
