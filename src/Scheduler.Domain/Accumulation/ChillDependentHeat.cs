namespace Scheduler.Domain.Accumulation;

/// <summary>
/// The heat a plant needs before its buds move, in °C·day above 5 °C, falling as the winter brings more chill days.
/// </summary>
/// <remarks>
/// required = a + b·exp(−k·C), with C the chill days. Sykes, Prentice and Cramer, A bioclimatic model for the potential distributions
/// of north European tree species, J. Biogeogr. 23, 1996, equation 1 (title from memory). A chill day is one whose daily mean is below
/// 5 °C; that counting starts in autumn is from memory.
/// </remarks>
public sealed record ChillDependentHeat
{
    /// <summary>Below this daily mean a day chills.</summary>
    public const double ChillDayBelowC = 5;

    public ChillDependentHeat(double leastCd, double extraCd, double perChillDay)
    {
        if (!(double.IsFinite(leastCd) && leastCd >= 0))
            throw new ArgumentOutOfRangeException(nameof(leastCd), leastCd, "The least heat must be finite and at least 0.");
        if (!(double.IsFinite(extraCd) && extraCd >= 0))
            throw new ArgumentOutOfRangeException(nameof(extraCd), extraCd, "The heat that chill can save must be finite and at least 0.");
        if (!(double.IsFinite(perChillDay) && perChillDay >= 0))
            throw new ArgumentOutOfRangeException(nameof(perChillDay), perChillDay, "The effect of a chill day must be finite and at least 0.");
        (LeastCd, ExtraCd, PerChillDay) = (leastCd, extraCd, perChillDay);
    }

    /// <summary>a, what is needed after any amount of chill.</summary>
    public double LeastCd { get; }

    /// <summary>b, what is needed on top without any chill.</summary>
    public double ExtraCd { get; }

    /// <summary>k, per chill day.</summary>
    public double PerChillDay { get; }

    public double RequiredCd(double chillDays)
    {
        if (!(chillDays >= 0))
            throw new ArgumentOutOfRangeException(nameof(chillDays), chillDays, "Chill days must be at least 0.");
        return LeastCd + ExtraCd * Math.Exp(-PerChillDay * chillDays);
    }

    /// <summary>The running count of chill days; a missing day (NaN) does not count.</summary>
    public static void AccumulateChillDays(ReadOnlySpan<double> minC, ReadOnlySpan<double> maxC, Span<double> totalDays)
    {
        if (maxC.Length != minC.Length || totalDays.Length != minC.Length)
            throw new ArgumentException("Minima, maxima and totals must be of the same length.");
        var days = 0;
        for (var day = 0; day < minC.Length; day++)
        {
            if ((minC[day] + maxC[day]) / 2 < ChillDayBelowC)
                days++;
            totalDays[day] = days;
        }
    }
}
