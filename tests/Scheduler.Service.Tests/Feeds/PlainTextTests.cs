using Scheduler.Service.Feeds;

namespace Scheduler.Service.Tests.Feeds;

public sealed class PlainTextTests
{
    [Theory]
    [InlineData("a\r\nb\rc\nd\u2028e\u0085f", "a\nb\nc\nd\ne\nf")]
    [InlineData("a\\nb", "a/nb")]
    [InlineData("a\tb\u0000c\u0007d\u009fe", "a bcde")]
    [InlineData("\uFEFFa\uFFFEb\uFDD0c", "abc")]
    [InlineData("  👩‍🌾 łąka  ", "👩‍🌾 łąka")]
    public void Lines_Odd_ComesOutReadable(string text, string clean) => Assert.Equal(clean, PlainText.Lines(text));

    [Fact]
    public void Lines_LoneSurrogates_Dropped() => Assert.Equal("ab", PlainText.Lines("a\uD83Cb\uDF33"));

    [Fact]
    public void Line_Breaks_BecomeBlanks() => Assert.Equal("a b c", PlainText.Line("a\n\nb \r\n c"));
}
