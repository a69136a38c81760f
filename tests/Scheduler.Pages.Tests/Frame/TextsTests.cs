using System.Globalization;
using System.Reflection;
using System.Resources;
using System.Text.RegularExpressions;

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
        Assert.DoesNotContain(known, key => !asked.Contains(key) && !begun.Any(start => key.StartsWith(start, StringComparison.Ordinal)) && !all.Contains($"\"{key}\"", StringComparison.Ordinal));
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

    [GeneratedRegex(@"\b[Pp]age\[""([^""]+)"" \+")]
    private static partial Regex Begun();

    [GeneratedRegex(@"\{\d\}")]
    private static partial Regex Place();
}
