namespace Scheduler.Domain.Phenology;

/// <summary>
/// The published form for flowering cherries, kept to compare the growth clock with: days transformed to a standard
/// temperature (DTS), t = exp(Ea * (T - Ts) / (R * T * Ts)) with T the day's mean [K], summed from a fixed day on.
/// </summary>
/// <remarks>
/// Omoto and Aono, Estimation of blooming date for Prunus yedoensis by means of kinetic method, J. Agric. Meteorol. 45 (1989):
/// Ea = 17 kcal/mol and Ts = 25 C fit 21 stations of Japan best; at most of them counting begins between the 40th and the 55th
/// day of the year. The sum that blooming needs is each station's own mean. Assumes that rest is over by the start.
/// </remarks>
public static class StandardTemperatureDays
{
    public const double ActivationEnergyCalPerMol = 17_000;
    public const double StandardC = 25;
    /// <summary>Middle of the published starts, counted from 1 January.</summary>
    public const int StartDayOfYear = 47;
    private const double GasConstantCalPerMolK = 1.98720;
    private const double ZeroCInK = 273.15;

    /// <summary>What one day counts, in days at the standard temperature.</summary>
    public static double OfDay(double meanC)
    {
        double t = meanC + ZeroCInK, standard = StandardC + ZeroCInK;
        return Math.Exp(ActivationEnergyCalPerMol * (t - standard) / (GasConstantCalPerMolK * t * standard));
    }

    /// <summary>Sum at the end of each axis day [d]; a missing day adds nothing.</summary>
    public static double[] Gathered(ReadOnlySpan<double> minC, ReadOnlySpan<double> maxC, int startDay)
    {
        var total = new double[minC.Length];
        var sum = 0d;
        for (var day = startDay; day < total.Length; day++)
        {
            if (!double.IsNaN(minC[day]))
                sum += OfDay((minC[day] + maxC[day]) / 2);
            total[day] = sum;
        }
        return total;
    }
}
