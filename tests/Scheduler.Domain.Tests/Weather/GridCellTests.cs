using System.Globalization;
using CsCheck;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Weather;

public class GridCellTests
{
    [Theory]
    [InlineData(52.52, 13.41, 0.1, "52.5,13.4")]
    [InlineData(-43.53, 172.63, 0.1, "-43.5,172.6")]
    [InlineData(-0.01, -0.04, 0.1, "0.0,0.0")]
    [InlineData(-0.0, -0.0, 0.1, "0.0,0.0")]
    [InlineData(52, 13, 0.1, "52.0,13.0")]
    [InlineData(52.45, 13.35, 0.1, "52.5,13.4")]
    [InlineData(52.449, 13.349, 0.1, "52.4,13.3")]
    [InlineData(-52.45, -13.35, 0.1, "-52.4,-13.3")]
    [InlineData(10, 180, 0.1, "10.0,-180.0")]
    [InlineData(10, -180, 0.1, "10.0,-180.0")]
    [InlineData(10, 179.96, 0.1, "10.0,-180.0")]
    [InlineData(90, 77, 0.1, "90.0,0.0")]
    [InlineData(-89.97, -120, 0.1, "-90.0,0.0")]
    [InlineData(52.52, 13.41, 0.25, "52.50,13.50")]
    [InlineData(52.52, 13.41, 1, "53.0,13.0")]
    public void Key_OfAPoint(double latitude, double longitude, double size, string key)
    {
        var cell = GridCell.Of(latitude, longitude, size);
        Assert.Equal(key, cell.Key);
        Assert.Equal(size, cell.SizeDegrees);
    }

    [Fact]
    public void Key_DoesNotDependOnTheLanguage()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo("de-DE");
            Assert.Equal("-52.5,13.4", GridCell.Of(-52.52, 13.41).Key);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Center_IsHalfACellAwayAtMost_AndInItsOwnCell() =>
        Gen.Select(Gen.Double[-89.9, 89.9], Gen.Double[-179.9, 179.9]).Sample((latitude, longitude) =>
        {
            var cell = GridCell.Of(latitude, longitude);
            return Math.Abs(cell.CenterLatitude - latitude) <= 0.05 + 1e-9
                && Math.Abs(cell.CenterLongitude - longitude) <= 0.05 + 1e-9
                && GridCell.Of(cell.CenterLatitude, cell.CenterLongitude) == cell;
        });

    [Theory]
    [InlineData(90.1, 0, 0.1)]
    [InlineData(0, 180.1, 0.1)]
    [InlineData(double.NaN, 0, 0.1)]
    [InlineData(0, double.NaN, 0.1)]
    [InlineData(0, 0, 0)]
    [InlineData(0, 0, 0.7)]
    [InlineData(0, 0, double.NaN)]
    public void Of_NoSuchPlaceOrSize_IsRefused(double latitude, double longitude, double size) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => GridCell.Of(latitude, longitude, size));

    // 6.5 °C per km is the gradient of the standard atmosphere (ICAO Doc 7488), published.
    [Fact]
    public void Lapse_HigherGardenIsColder()
    {
        Assert.Equal(-6.5, Lapse.AdjustC(cellElevationM: 100, gardenElevationM: 1100), 1e-12);
        Assert.Equal(0.65, Lapse.AdjustC(cellElevationM: 100, gardenElevationM: 0), 1e-12);
    }

    [Theory]
    [InlineData(52, Hemisphere.North)]
    [InlineData(0, Hemisphere.North)]
    [InlineData(-0.1, Hemisphere.South)]
    public void Hemisphere_OfLatitude(double latitude, Hemisphere expected) => Assert.Equal(expected, Hemisphere.OfLatitude(latitude));

    [Fact]
    public void Hemisphere_OutsideTheEarth_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Hemisphere.OfLatitude(double.NaN));
}
