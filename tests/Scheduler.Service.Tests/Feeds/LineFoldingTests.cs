using System.Text;
using Scheduler.Service.Feeds;

namespace Scheduler.Service.Tests.Feeds;

public sealed class LineFoldingTests
{
    [Fact]
    public void Refold_EveryPosition_KeepsCharactersWholeAndTextTheSame()
    {
        for (var padding = 0; padding < 160; padding++)
        {
            var line = new string('x', padding) + "🌳ż🌲ó👩‍🌾" + new string('y', 90);
            var folded = LineFolding.Refold(line + "\r\n");
            Assert.All(folded.Split("\r\n"), part => Assert.True(Encoding.UTF8.GetByteCount(part) <= 75));
            var octets = new UTF8Encoding(false, throwOnInvalidBytes: true).GetBytes(folded);
            Assert.Equal(line + "\r\n", Encoding.UTF8.GetString(octets).Replace("\r\n ", "", StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Refold_CutInsideACharacter_IsMended()
    {
        var cut = "SUMMARY:" + "\uD83C\r\n \uDF33" + "\r\n";
        Assert.Equal("SUMMARY:🌳\r\n", LineFolding.Refold(cut));
    }

    [Fact]
    public void Refold_Lines_FillSeventyFiveOctetsFirst() =>
        Assert.Equal(new string('a', 75) + "\r\n " + new string('a', 74) + "\r\n a\r\n", LineFolding.Refold(new string('a', 150) + "\r\n"));
}
