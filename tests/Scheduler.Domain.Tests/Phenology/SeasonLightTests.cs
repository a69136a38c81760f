using Scheduler.Domain.Phenology;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class SeasonLightTests
{
    // Published-form values of the CBM model with 0.8333 degrees (methods table): 35 N day 80 12.1280 h, day 172 14.5129 h, day 355 9.7981 h.
    [Theory]
    [InlineData(80, 12.1280)]
    [InlineData(172, 14.5129)]
    [InlineData(355, 9.7981)]
    public void Hours_AreThoseOfTheDate(int dayOfYear, double hours)
    {
        var year = new GrowthYear(2023, Hemisphere.North);
        var light = new SeasonLight(35, year);
        var day = year.HeatStartDay + dayOfYear - 1;

        Assert.Equal(hours, light.Hours[day], 3);
        Assert.Equal(Math.Pow(hours / 12, 3), light.WarmthWeight[day], 3);
    }

    [Fact]
    public void Equator_WeighsAllYearNearlyAlike() =>
        Assert.All(new SeasonLight(0, new GrowthYear(2023, Hemisphere.North)).WarmthWeight.ToArray(), weight => Assert.InRange(weight, 1.0, 1.05));
}
