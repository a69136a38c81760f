namespace Scheduler.Domain.Accumulation;

/// <summary>Growing degree hours, in °C·hour: warmth weighed by a curve that rises from 4 to 25 °C and falls to nothing at 36 °C.</summary>
/// <remarks>
/// Tb..Tu: 10.5·(1 + cos(π + π(T − 4)/21)); Tu..Tc: 21·(1 + cos(π/2 + π/2·(T − 25)/11)); else 0.
/// Anderson, Richardson and Kesner, Acta Horticulturae 184:71-78, 1986.
/// </remarks>
public static class GrowingDegreeHours
{
    public const double BaseC = 4;

    public const double OptimumC = 25;

    public const double CeilingC = 36;

    private const double HighestCh = OptimumC - BaseC;

    /// <summary>The warmth of one hour; a missing hour (NaN) counts 0.</summary>
    public static double OfHour(double temperatureC) => temperatureC switch
    {
        > BaseC and <= OptimumC => HighestCh / 2 * (1 + Math.Cos(Math.PI * (1 + (temperatureC - BaseC) / (OptimumC - BaseC)))),
        > OptimumC and < CeilingC => HighestCh * (1 + Math.Cos(Math.PI / 2 * (1 + (temperatureC - OptimumC) / (CeilingC - OptimumC)))),
        _ => 0,
    };

    public static double Sum(ReadOnlySpan<double> hourlyC)
    {
        var heatCh = 0.0;
        foreach (var temperatureC in hourlyC)
            heatCh += OfHour(temperatureC);
        return heatCh;
    }
}
