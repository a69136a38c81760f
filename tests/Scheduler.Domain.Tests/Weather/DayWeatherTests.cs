using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Weather;

public class DayWeatherTests
{
    private static readonly LocalDate Date = new(2001, 4, 3);

    [Fact]
    public void Constructor_NotAnAirTemperature_IsRefused() =>
        Assert.Throws<ArgumentException>(() => new DayWeather(Date, 5, 4, null, null, null, DayKind.Observed));

    [Fact]
    public void Constructor_NegativeAmounts_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new DayWeather(Date, 1, 2, -0.1, null, null, DayKind.Forecast));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DayWeather(Date, 1, 2, null, -1, null, DayKind.Forecast));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DayWeather(Date, 1, 2, null, null, double.NaN, DayKind.Forecast));
        Assert.Null(new DayWeather(Date, 1, 2, null, 0, 0, DayKind.Forecast).PrecipMm);
    }
}
