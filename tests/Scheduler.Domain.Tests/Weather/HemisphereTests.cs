using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Weather;

public class HemisphereTests
{
    [Theory]
    [InlineData(52, Hemisphere.North)]
    [InlineData(0, Hemisphere.North)]
    [InlineData(-0.1, Hemisphere.South)]
    public void OfLatitude_BothSidesOfTheEquator(double latitude, Hemisphere expected) =>
        Assert.Equal(expected, Hemisphere.OfLatitude(latitude));

    [Fact]
    public void OfLatitude_OutsideTheEarth_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Hemisphere.OfLatitude(double.NaN));
}
