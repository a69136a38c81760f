using System.Globalization;
using NodaTime;

namespace Scheduler.Domain.Weather;

/// <summary>
/// The lowest and highest air temperature of one local calendar day, in °C, at about 2 m above the ground.
/// </summary>
/// <remarks>
/// The allowed range, -90 to 60 °C, lies just outside the coldest and hottest air ever measured at the ground (about -89 and 57 °C,
/// from memory), so what falls outside is a fault of the instrument or of the unit.
/// </remarks>
public readonly record struct DailyTemperature(LocalDate Date, double MinC, double MaxC)
{
    public const double ColdestC = -90;

    public const double HottestC = 60;

    public double MinC { get; } = Fault(MinC, MaxC) is { } fault ? throw new ArgumentException(fault) : MinC;

    public double MaxC { get; } = MaxC;

    /// <summary>Half the sum of both extremes, the daily mean of the degree-day convention.</summary>
    public double MeanC => (MinC + MaxC) / 2;

    /// <summary>Why these two values cannot be a day's temperatures, or null when they can.</summary>
    public static string? Fault(double minC, double maxC)
    {
        if (!double.IsFinite(minC) || !double.IsFinite(maxC))
            return "The minimum and the maximum must both be finite numbers.";
        if (minC > maxC)
            return string.Create(CultureInfo.InvariantCulture, $"The minimum {minC} °C is above the maximum {maxC} °C.");
        if (minC < ColdestC || maxC > HottestC)
            return string.Create(CultureInfo.InvariantCulture, $"Temperatures must lie between {ColdestC} and {HottestC} °C.");
        return null;
    }
}
