namespace Scheduler.Domain.Accumulation;

/// <summary>Chill hours: how many hours of a series were cold. Two definitions are in use and are not interchangeable.</summary>
/// <remarks>Both treat 1 °C and 7 °C alike and know no harm from warmth between. A missing hour (NaN) does not count.</remarks>
public static class ChillHours
{
    /// <summary>45 °F, as growers write it.</summary>
    public const double UpperC = 7.2;

    /// <summary>
    /// Hours with T &lt; 7.2 °C, the growers' usual definition (Chilling requirement basics, Dave Wilson Nursery); hard frost counts
    /// too, which is too much.
    /// </summary>
    public static int Below(ReadOnlySpan<double> hourlyC)
    {
        var hours = 0;
        foreach (var temperatureC in hourlyC)
        {
            if (temperatureC < UpperC)
                hours++;
        }
        return hours;
    }

    /// <summary>Hours with 0 ≤ T ≤ 7.2 °C (Bennett 1949, Weinberger 1950, as in the R package chillR).</summary>
    public static int AboveFreezing(ReadOnlySpan<double> hourlyC)
    {
        var hours = 0;
        foreach (var temperatureC in hourlyC)
        {
            if (temperatureC is >= 0 and <= UpperC)
                hours++;
        }
        return hours;
    }
}
