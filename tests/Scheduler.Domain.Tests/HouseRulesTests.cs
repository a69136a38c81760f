using System.Reflection;
using System.Text.RegularExpressions;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests;

/// <summary>The house keeps its shape: small files, one direction, a pure domain, tests where their subject is.</summary>
public partial class HouseRulesTests
{
    private const int RedLine = 300;
    private static readonly string[] DomainFlow = ["Weather", "Accumulation", "Phenology", "Trees", "Techniques", "Planning"];
    private static readonly string Top = FindTop();

    [Fact]
    public void SourceFiles_StayUnderTheRedLine()
    {
        var tooLong = Sources("src").Concat(Sources("tests"))
            .Select(file => (File: Path.GetRelativePath(Top, file), Lines: File.ReadLines(file).Count()))
            .Where(file => file.Lines > RedLine);
        Assert.Empty(tooLong);
    }

    [Fact]
    public void Domain_ReferencesNothingButNodaTimeAndTheBaseLibrary()
    {
        var foreign = typeof(DailyTemperature).Assembly.GetReferencedAssemblies()
            .Select(name => name.Name!)
            .Where(name => name != "NodaTime" && !name.StartsWith("System.", StringComparison.Ordinal));
        Assert.Empty(foreign);
    }

    [Fact]
    public void DomainFolders_UseOnlyWhatStandsBeforeThem()
    {
        var turned =
            from file in Sources("src/Scheduler.Domain")
            let folder = Path.GetRelativePath(Path.Combine(Top, "src/Scheduler.Domain"), file).Split(Path.DirectorySeparatorChar)[0]
            from used in DomainUse().Matches(File.ReadAllText(file)).Select(match => match.Groups[1].Value)
            where Array.IndexOf(DomainFlow, used) > Array.IndexOf(DomainFlow, folder)
            select $"{folder}/{Path.GetFileName(file)} uses {used}";
        Assert.Empty(turned);
    }

    [Fact]
    public void CalendarLibrary_IsUsedInOneFolderOnly()
    {
        var users = Sources("src").Where(file => File.ReadAllText(file).Contains("using Ical.Net", StringComparison.Ordinal))
            .Select(file => Path.GetFileName(Path.GetDirectoryName(file))).Distinct();
        Assert.Equal(["Feeds"], users);
    }

    [Fact]
    public void WallClock_IsReadNowhereButWhereTheClockIsMade()
    {
        var readers = Sources("src").Where(file => WallClock().IsMatch(File.ReadAllText(file))).Select(file => Path.GetRelativePath(Top, file));
        Assert.All(readers, reader => Assert.Contains("Hosting", reader, StringComparison.Ordinal));
    }

    [Fact]
    public void Tests_StandInFoldersThatTheirSourceHas()
    {
        var homeless =
            from project in new[] { "Scheduler.Domain", "Scheduler.Service" }
            from file in Sources($"tests/{project}.Tests")
            let folder = Path.GetRelativePath(Path.Combine(Top, $"tests/{project}.Tests"), file).Split(Path.DirectorySeparatorChar)[0]
            where folder.EndsWith("Tests.cs", StringComparison.Ordinal) is false
            where folder is not ("Support" or "MainJob" or "PublishedValues" or "Rules") && !Directory.Exists(Path.Combine(Top, "src", project, folder))
            select Path.GetRelativePath(Top, file);
        Assert.Empty(homeless);
    }

    [Fact]
    public void ShippedText_NamesNoMachinePath()
    {
        var named = Sources("src").Concat(Sources("tests"))
            .Concat(Directory.EnumerateFiles(Path.Combine(Top, "config"), "*", SearchOption.AllDirectories))
            .Concat(["README.md", "DEVELOPERS.md", "Dockerfile"])
            .Where(file => MachinePath().IsMatch(File.ReadAllText(Path.Combine(Top, file))));
        Assert.Empty(named);
    }

    private static IEnumerable<string> Sources(string folder) => Directory
        .EnumerateFiles(Path.Combine(Top, folder), "*.cs", SearchOption.AllDirectories)
        .Where(file => !file.Split(Path.DirectorySeparatorChar).Any(part => part is "bin" or "obj"));

    private static string FindTop()
    {
        var folder = new DirectoryInfo(Path.GetDirectoryName(Assembly.GetExecutingAssembly().Location)!);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Scheduler.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("The tests must run inside the repository.");
    }

    [GeneratedRegex(@"^using Scheduler\.Domain\.(\w+)", RegexOptions.Multiline)]
    private static partial Regex DomainUse();

    [GeneratedRegex(@"DateTime(Offset)?\.(Now|UtcNow|Today)|SystemClock\.Instance\.GetCurrentInstant|TimeProvider\.System\.Get")]
    private static partial Regex WallClock();

    [GeneratedRegex(@"(?<![\w.])/(work|farm|home|root)/\w")]
    private static partial Regex MachinePath();
}
