using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Weather;

public class LapseTests
{
    // 6.5 °C per km is the gradient of the standard atmosphere (ICAO Doc 7488), published.
    [Fact]
    public void AdjustC_HigherGardenIsColder()
    {
        Assert.Equal(-6.5, Lapse.AdjustC(cellElevationM: 100, gardenElevationM: 1100), 1e-12);
        Assert.Equal(0.65, Lapse.AdjustC(cellElevationM: 100, gardenElevationM: 0), 1e-12);
    }
}
