using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Tests.PublishedValues;

namespace Scheduler.Domain.Tests.Accumulation;

public class HardinessZoneTests
{
    public static TheoryData<PublishedRow> Zones => PublishedTable.Theory("hardiness-zones.csv");

    [Theory]
    [MemberData(nameof(Zones))]
    public void Zone_Bounds(PublishedRow row)
    {
        var zone = HardinessZone.Parse(row.Text("zone"));
        Assert.Equal(row.Text("zone"), zone.ToString());
        Assert.Equal(row.Number("low_c"), zone.LowC, 0.0501);
        Assert.Equal(row.Number("high_c"), zone.HighC, 0.0501);
        Assert.Equal(zone, HardinessZone.OfExtremeMinimum(Fahrenheit.ToC(row.Number("low_f"))));
        Assert.Equal(zone, HardinessZone.OfExtremeMinimum(Fahrenheit.ToC(row.Number("low_f") + 2.5)));
        Assert.Equal(zone, HardinessZone.OfExtremeMinimum(Fahrenheit.ToC(row.Number("high_f") - 0.001)));
    }

    [Fact]
    public void All_IsEveryPublishedZoneInOrder()
    {
        var published = PublishedTable.Rows("hardiness-zones.csv").Select(row => row.Text("zone"));
        Assert.Equal(published, HardinessZone.All.Select(zone => zone.ToString()));
        Assert.All(HardinessZone.All.Zip(HardinessZone.All.Skip(1)), pair =>
        {
            Assert.True(pair.First < pair.Second && pair.Second > pair.First && pair.First <= pair.Second && !(pair.First >= pair.Second));
            Assert.Equal(pair.First.HighC, pair.Second.LowC);
        });
    }

    [Fact]
    public void OfExtremeMinimum_BeyondTheTable_IsItsEnd()
    {
        Assert.Equal("1a", HardinessZone.OfExtremeMinimum(-70).ToString());
        Assert.Equal("13b", HardinessZone.OfExtremeMinimum(25).ToString());
        Assert.Throws<ArgumentOutOfRangeException>(() => HardinessZone.OfExtremeMinimum(double.NaN));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("a")]
    [InlineData("7")]
    [InlineData("7c")]
    [InlineData("0a")]
    [InlineData("07a")]
    [InlineData("14a")]
    [InlineData("-1a")]
    [InlineData("7a ")]
    [InlineData("٧a")]
    public void TryParse_NotAZone(string? text)
    {
        Assert.False(HardinessZone.TryParse(text, out _));
        Assert.Throws<FormatException>(() => HardinessZone.Parse(text!));
    }

    [Fact]
    public void Parse_CapitalHalf_IsUnderstood() => Assert.Equal("10b", HardinessZone.Parse("10B").ToString());
}
