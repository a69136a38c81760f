namespace Scheduler.Domain.Accumulation;

/// <summary>Conversions for sources that state °F; inside the domain everything is °C. Exact by definition of both scales.</summary>
public static class Fahrenheit
{
    /// <summary>A temperature: (F − 32)·5/9.</summary>
    public static double ToC(double temperatureF) => (temperatureF - 32) * 5 / 9;

    /// <summary>
    /// A heat sum: °F·day·5/9. Holds for the same base temperature only; going over to another base needs the daily series.
    /// </summary>
    public static double DegreeDaysToCd(double heatFd) => heatFd * 5 / 9;
}
