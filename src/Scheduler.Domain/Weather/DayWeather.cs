using NodaTime;

namespace Scheduler.Domain.Weather;

/// <summary>Where a day's weather comes from.</summary>
public enum DayKind
{
    /// <summary>A weather source's record or analysis of a past day.</summary>
    Observed,

    /// <summary>The owner's own thermometer.</summary>
    Reading,

    /// <summary>A weather source's forecast.</summary>
    Forecast,

    /// <summary>Filled in by us, from its neighbors or from past years.</summary>
    Estimated,
}

/// <summary>
/// What the rules look at when they ask whether a day suits the work: temperatures in °C, precipitation and reference
/// evapotranspiration in mm a day, the strongest gust in km/h. Null means not known, never zero.
/// </summary>
public sealed record DayWeather(
    LocalDate Date,
    double MinC,
    double MaxC,
    double? PrecipMm,
    double? GustKmh,
    double? Et0Mm,
    DayKind Kind)
{
    public double MinC { get; } = DailyTemperature.Fault(MinC, MaxC) is { } fault ? throw new ArgumentException(fault) : MinC;

    public double MaxC { get; } = MaxC;

    public double? PrecipMm { get; } = NotNegative(PrecipMm, nameof(PrecipMm));

    public double? GustKmh { get; } = NotNegative(GustKmh, nameof(GustKmh));

    public double? Et0Mm { get; } = NotNegative(Et0Mm, nameof(Et0Mm));

    private static double? NotNegative(double? value, string name)
    {
        if (value is { } known && !(double.IsFinite(known) && known >= 0))
            throw new ArgumentOutOfRangeException(name, value, "The value must be a finite number of at least 0, or null.");
        return value;
    }
}
