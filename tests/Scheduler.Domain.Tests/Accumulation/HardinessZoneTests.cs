using NodaTime;
using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Tests.PublishedValues;
using Scheduler.Domain.Weather;

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
        Assert.Equal(PublishedTable.Rows("hardiness-zones.csv").Select(row => row.Text("zone")), HardinessZone.All.Select(zone => zone.ToString()));
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

    [Fact]
    public void ExtremeMinimum_WinterIsNotCutAtNewYear()
    {
        // Two northern winters: the coldest night of the first is in December 2001, of the second in January 2003.
        var series = Mild(new LocalDate(2001, 7, 1), new LocalDate(2003, 6, 30))
            .OverlaidWith(Night(new LocalDate(2001, 12, 31), -20))
            .OverlaidWith(Night(new LocalDate(2002, 1, 1), -18))
            .OverlaidWith(Night(new LocalDate(2003, 1, 5), -10));
        Assert.Equal([(2001, -20.0), (2002, -10.0)], ExtremeMinimum.OfWinters(series, Hemisphere.North));
        Assert.Equal(-15, ExtremeMinimum.MeanC(series, Hemisphere.North));
        Assert.Equal([(2002, -18.0)], ExtremeMinimum.OfWinters(series, Hemisphere.South));
    }

    [Fact]
    public void ExtremeMinimum_TooManyDaysMissing_DoesNotCount()
    {
        var start = new LocalDate(2001, 7, 1);
        Assert.NotNull(ExtremeMinimum.MeanC(Mild(start.PlusDays(10), new LocalDate(2002, 6, 30)), Hemisphere.North));
        Assert.Null(ExtremeMinimum.MeanC(Mild(start.PlusDays(11), new LocalDate(2002, 6, 30)), Hemisphere.North));
        Assert.Null(ExtremeMinimum.MeanC(Mild(start.PlusDays(6), new LocalDate(2002, 6, 25)), Hemisphere.North));
        Assert.Null(ExtremeMinimum.MeanC(TemperatureSeries.Empty, Hemisphere.North));
    }

    private static TemperatureSeries Mild(LocalDate from, LocalDate to) =>
        TemperatureSeries.From(new DateInterval(from, to).Select(date => new DailyTemperature(date, 4, 12)));

    private static TemperatureSeries Night(LocalDate date, double minC) => TemperatureSeries.From([new DailyTemperature(date, minC, 12)]);
}
