using System.Diagnostics;
using System.Text.RegularExpressions;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;
using Scheduler.Service.Tests.Catalog;
using Xunit.Abstractions;

namespace Scheduler.Service.Tests.Rules;

/// <summary>A whole invented year of advice in each hemisphere, kept as a document that people can read and judge.</summary>
public partial class YearDiaryTests(ITestOutputHelper output)
{
    private const int ShownLines = 12;
    private const int MostBytes = 180_000;

    [Theory]
    [InlineData("north")]
    [InlineData("south")]
    public void Year_ReadsAsApproved(string place)
    {
        var start = Stopwatch.GetTimestamp();
        var diary = new YearDiary(place, 2025);
        var text = diary.Write();
        output.WriteLine($"{place}: {Stopwatch.GetElapsedTime(start).TotalSeconds:0.0} s, {text.Length / 1000} kB");
        var name = $"diary-{place}.md";
        if (Environment.GetEnvironmentVariable("DIARY_WRITE") == "1")
            File.WriteAllText(Path.Combine(SourceFolder(), name), text);
        Assert.True(diary.Checks.Violations.Count == 0, $"{diary.Checks.Violations.Count} violations:\n" + string.Join('\n', diary.Checks.Violations.Take(60)));
        Assert.InRange(text.Length, 10_000, MostBytes);
        if (Environment.GetEnvironmentVariable("DIARY_WRITE") != "1")
            Compare(Path.Combine(AppContext.BaseDirectory, "Rules", "approved", name), text);
    }

    [Fact]
    public void Checks_TellWorkThatBreaksARule()
    {
        var year = new GrowthYear(2025, Hemisphere.North);
        var checks = new DiaryChecks((_, _) => 100, year);
        var tree = Trees.Tree("ulmus-parvifolia", TreeStage.Refinement, Goal.Slender) with { Health = Health.Sound };
        var day = new LocalDate(2025, 6, 10);
        List<WorkRecord> before = [Trees.Work("leaf-thinning", day.PlusDays(-5)), Trees.Work("tip-pinch", day.PlusDays(-30)),
            Trees.Work("partial-defoliation", day.PlusDays(-60))];
        checks.Work(tree, Trees.Work("outer-leaf-removal", day), before);
        Assert.Contains(checks.Violations, one => one.Contains("100 degree-days after leaf-thinning, needs 200", StringComparison.Ordinal));
        Assert.Contains(checks.Violations, one => one.Contains("over the season's budget", StringComparison.Ordinal));
        Assert.Contains(checks.Violations, one => one.Contains("60 % of the leaves in six weeks", StringComparison.Ordinal));
        checks.Violations.Clear();
        TechniqueAdvice Open(string technique) => new() { Technique = technique, Verdict = Verdict.DoNow, Reasons = [] };
        checks.Day(tree, day, [Open("leaf-thinning"), Open("partial-defoliation")], isWeak: true, daysToFrost: 50);
        Assert.Contains(checks.Violations, one => one.Contains("two leaf jobs", StringComparison.Ordinal));
        Assert.Contains(checks.Violations, one => one.Contains("weak tree", StringComparison.Ordinal));
        Assert.Contains(checks.Violations, one => one.Contains("partial-defoliation/ is open 50 days before", StringComparison.Ordinal));
    }

    [Fact]
    public void Rules_NameNoMonthAndNoDate()
    {
        var files = Directory.EnumerateFiles(Path.Combine(ShippedCatalog.Folder, "techniques"), "*.yaml")
            .Concat(new[] { "groups.yaml", "thresholds.yaml" }.Select(name => Path.Combine(ShippedCatalog.Folder, name))).ToList();
        Assert.True(files.Count > 20);
        var found = files.SelectMany(file => File.ReadLines(file).Select((line, index) => (Path: Path.GetFileName(file), Number: index + 1, Line: line)))
            .Where(one => NamesMonth(one.Line)).Select(one => $"{one.Path}, line {one.Number}: {one.Line.Trim()}");
        Assert.Empty(found);
    }

    [Theory]
    [InlineData("closes: { month: june }", true)]
    [InlineData("text: Best in May, not later.", true)]
    [InlineData("from: 2025-04-01", true)]
    [InlineData("opens: 15 Sept", true)]
    [InlineData("text: The bench may fall to -2.", false)]
    [InlineData("text: May be cut twice.", false)]
    public void MonthSearch_TellsMonthsFromOtherWords(string line, bool isMonth) => Assert.Equal(isMonth, NamesMonth(line));

    private static bool NamesMonth(string line) => Month().IsMatch(line) || May().IsMatch(line) || Date().IsMatch(line);

    private static void Compare(string file, string text)
    {
        var approved = File.Exists(file) ? File.ReadAllText(file).ReplaceLineEndings("\n") : "";
        if (approved == text)
            return;
        var received = Path.ChangeExtension(file, ".received.md");
        Directory.CreateDirectory(Path.GetDirectoryName(received)!);
        File.WriteAllText(received, text);
        string[] before = approved.Split('\n'), now = text.Split('\n');
        var first = 0;
        while (first < before.Length && first < now.Length && before[first] == now[first])
            first++;
        Assert.Fail($"The diary differs from line {first + 1} on. The whole text is in {received}; DIARY_WRITE=1 approves it.\n"
            + $"approved:\n{Lines(before, first)}\nreceived:\n{Lines(now, first)}");
    }

    private static string Lines(string[] lines, int first) => string.Join('\n', lines.Skip(first).Take(ShownLines).Select(line => "  " + line));

    private static string SourceFolder()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Scheduler.sln")))
                return Path.Combine(folder.FullName, "tests", "Scheduler.Service.Tests", "Rules", "approved");
        }
        throw new DirectoryNotFoundException("The sources are not above the test binaries.");
    }

    [GeneratedRegex(@"\b(january|february|april|june|july|september|october|november|december)\b|\b(March|August|Jan|Feb|Mar|Apr|Jun|Jul|Aug|Sept?|Oct|Nov|Dec)\b|\b(month:|jan:|feb:|mar:|apr:|may:|jun:|jul:|aug:|sep:|oct:|nov:|dec:)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Month();

    // Capitalized within a sentence it is the month, elsewhere the verb.
    [GeneratedRegex(@"(?<=[a-z0-9,;] )May\b", RegexOptions.CultureInvariant)]
    private static partial Regex May();

    [GeneratedRegex(@"\b\d{4}-\d{2}-\d{2}\b", RegexOptions.CultureInvariant)]
    private static partial Regex Date();
}
