using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Weather;

public class DailyTemperatureTests
{
    private static readonly LocalDate Date = new(2001, 4, 3);

    [Fact]
    public void Mean_IsHalfTheSum() => Assert.Equal(6, new DailyTemperature(Date, -2, 14).MeanC);

    [Theory]
    [InlineData(5, 4)]
    [InlineData(-90.1, 0)]
    [InlineData(20, 60.1)]
    [InlineData(double.NaN, 5)]
    [InlineData(5, double.NaN)]
    [InlineData(double.NegativeInfinity, 5)]
    [InlineData(5, double.PositiveInfinity)]
    public void Day_NotAnAirTemperature_IsRefused(double minC, double maxC)
    {
        Assert.Throws<ArgumentException>(() => new DailyTemperature(Date, minC, maxC));
        Assert.NotNull(DailyTemperature.Fault(minC, maxC));
        Assert.Throws<ArgumentException>(() => new DayWeather(Date, minC, maxC, null, null, null, DayKind.Observed));
    }

    [Theory]
    [InlineData(-90, -90)]
    [InlineData(60, 60)]
    public void Day_AtTheLimits_IsTaken(double minC, double maxC)
    {
        Assert.Equal(minC, new DailyTemperature(Date, minC, maxC).MinC);
        Assert.Null(DailyTemperature.Fault(minC, maxC));
    }

    [Fact]
    public void DayWeather_NegativeAmounts_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new DayWeather(Date, 1, 2, -0.1, null, null, DayKind.Forecast));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DayWeather(Date, 1, 2, null, -1, null, DayKind.Forecast));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DayWeather(Date, 1, 2, null, null, double.NaN, DayKind.Forecast));
        Assert.Null(new DayWeather(Date, 1, 2, null, 0, 0, DayKind.Forecast).PrecipMm);
    }
}
