using System.Globalization;
using System.Reflection;
using System.Resources;
using System.Text.RegularExpressions;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Domain.Trees;
using Scheduler.Service.Roads;

namespace Scheduler.Pages.Tests.Frame;

/// <summary>Every text that a page asks for is there, in every language.</summary>
public sealed partial class TextsTests
{
    private static readonly ResourceManager Texts = new("Scheduler.Service.Pages.Texts", typeof(Scheduler.Service.Pages.Texts).Assembly);

    [Fact]
    public void Languages_HaveTheSameTexts_WithTheSamePlacesForValues()
    {
        var english = Of("en");
        var german = Of("de");
        Assert.Equal(english.Keys.Order(StringComparer.Ordinal), german.Keys.Order(StringComparer.Ordinal));
        Assert.All(english, text => Assert.Equal(Places(text.Value), Places(german[text.Key])));
        Assert.All(german, text => Assert.False(string.IsNullOrWhiteSpace(text.Value), text.Key));
    }

    [Fact]
    public void Texts_ThatPagesAskFor_AreThere_AndNoneIsLeftOver()
    {
        var known = Of("en").Keys.ToHashSet();
        var sources = Directory.EnumerateFiles(Folder(), "*.*", SearchOption.AllDirectories)
            .Where(file => Path.GetExtension(file) is ".razor" or ".cs").Select(File.ReadAllText).ToList();
        var asked = sources.SelectMany(text => Asked().Matches(text)).Select(match => match.Groups[1].Value).ToHashSet();
        var begun = sources.SelectMany(text => Begun().Matches(text)).Select(match => match.Groups[1].Value).ToList();
        Assert.DoesNotContain(asked, key => !known.Contains(key) && !begun.Contains(key));
        // Keys are also handed on as plain strings, such as those of the navigation.
        var all = string.Join('\n', sources);
        foreach (var (name, ids) in Enums())
        {
            begun.Add(name + ".");
            Assert.Equal(ids.Order(StringComparer.Ordinal), known.Where(key => key.StartsWith(name + ".", StringComparison.Ordinal)).Select(key => key[(name.Length + 1)..]).Order(StringComparer.Ordinal));
        }
        Assert.DoesNotContain(known, key => !asked.Contains(key) && !begun.Any(start => key.StartsWith(start, StringComparison.Ordinal)) && !all.Contains($"\"{key}\"", StringComparison.Ordinal));
    }

    // Values of these are shown by their ids, so each needs a text.
    private static IEnumerable<(string, IEnumerable<string>)> Enums()
    {
        yield return (nameof(TreeStage), Ids.All<TreeStage>());
        yield return (nameof(Goal), Ids.All<Goal>());
        yield return (nameof(Health), Ids.All<Health>());
        yield return (nameof(TreeSize), Ids.All<TreeSize>());
        yield return (nameof(Placement), Ids.All<Placement>());
        yield return (nameof(CrownZone), Ids.All<CrownZone>());
        yield return (nameof(Extent), Ids.All<Extent>());
        yield return (nameof(Girth), Ids.All<Girth>());
        yield return (nameof(BranchRole), Ids.All<BranchRole>());
        yield return (nameof(Verdict), Ids.All<Verdict>());
        yield return (nameof(PromiseState), Ids.All<PromiseState>());
        yield return (nameof(RoadKind), Ids.All<RoadKind>());
        yield return (nameof(RoadState), Ids.All<RoadState>());
        yield return (nameof(NoticeKind), Ids.All<NoticeKind>());
        yield return (nameof(Provenance), Ids.All<Provenance>());
        yield return ("Phase", GrowthPhase.All.Select(phase => phase.Id).Distinct());
    }

    private static Dictionary<string, string> Of(string language)
    {
        var culture = CultureInfo.GetCultureInfo(language);
        // The neutral texts are English; those of another language must stand on their own.
        var set = Texts.GetResourceSet(language == "en" ? CultureInfo.InvariantCulture : culture, true, false)!;
        return set.Cast<System.Collections.DictionaryEntry>().ToDictionary(entry => (string)entry.Key, entry => (string)entry.Value!);
    }

    private static string Places(string text) => string.Join(' ', Place().Matches(text).Select(match => match.Value).Distinct().Order(StringComparer.Ordinal));

    private static string Folder()
    {
        var folder = new DirectoryInfo(Path.GetDirectoryName(Assembly.GetExecutingAssembly().Location)!);
        while (!File.Exists(Path.Combine(folder.FullName, "Scheduler.sln")))
            folder = folder.Parent ?? throw new InvalidOperationException("The tests must run inside the repository.");
        return Path.Combine(folder.FullName, "src", "Scheduler.Service", "Pages");
    }

    [GeneratedRegex(@"\b[Pp]age\[""([^""]+)""")]
    private static partial Regex Asked();

    [GeneratedRegex(@"\b[Pp]age(?:\[|\.Find\()""([^""]+)"" \+")]
    private static partial Regex Begun();

    [GeneratedRegex(@"\{\d\}")]
    private static partial Regex Place();
}
