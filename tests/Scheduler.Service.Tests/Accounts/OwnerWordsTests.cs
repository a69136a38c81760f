using System.Globalization;
using System.Resources;
using System.Text.RegularExpressions;
using NodaTime;
using Scheduler.Service.Accounts;

namespace Scheduler.Service.Tests.Accounts;

public sealed partial class OwnerWordsTests
{
    private static readonly ResourceManager Texts = new("Scheduler.Service.Accounts.OwnerTexts", typeof(OwnerWords).Assembly);

    [Fact]
    public void Languages_HaveTheSameTexts_WithTheSamePlacesForValues()
    {
        var (english, german) = (Of(CultureInfo.InvariantCulture), Of(CultureInfo.GetCultureInfo("de")));
        Assert.Equal(english.Keys.Order(StringComparer.Ordinal), german.Keys.Order(StringComparer.Ordinal));
        Assert.All(english, text => Assert.Equal(Places(text.Value), Places(german[text.Key])));
    }

    [Theory]
    [InlineData(null, "en", "9 March 2026")]
    [InlineData("en", "en", "9 March 2026")]
    [InlineData("de", "de", "9. März 2026")]
    [InlineData("xx", "en", "9 March 2026")]
    public void Words_AreThoseOfTheAccount_OrEnglish(string? chosen, string language, string day)
    {
        var words = OwnerWords.Of(chosen);
        Assert.Equal((language, day), (words.Language, words.DayAndYear(new LocalDate(2026, 3, 9))));
    }

    private static Dictionary<string, string> Of(CultureInfo culture) => Texts.GetResourceSet(culture, true, false)!
        .Cast<System.Collections.DictionaryEntry>().ToDictionary(entry => (string)entry.Key, entry => (string)entry.Value!);

    private static IEnumerable<string> Places(string text) => Place().Matches(text).Select(match => match.Value).Distinct().Order(StringComparer.Ordinal);

    [GeneratedRegex(@"\{\d\}")]
    private static partial Regex Place();
}
