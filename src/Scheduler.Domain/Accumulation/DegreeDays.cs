namespace Scheduler.Domain.Accumulation;

/// <summary>The degree-day formulae that need no curve, and the running total of the project's own convention. Results in °C·day.</summary>
/// <remarks>
/// N is the day's minimum, X its maximum, M = (N + X)/2, L the base. Every formula is linear in scale: in °F it gives °F·day.
/// McMaster and Wilhelm, Growing degree-days: one equation, two interpretations, Agric. For. Meteorol. 87, 1997 (from memory),
/// tell the first two apart; they differ as soon as N is below L.
/// </remarks>
public static class DegreeDays
{
    /// <summary>max(0, M − L). Herms D., Biological calendars, Ohio State University.</summary>
    public static double SimpleAverage(double minC, double maxC, double baseC) => Math.Max(0, (minC + maxC) / 2 - baseC);

    /// <summary>N and X each moved into [L, U], then M − L. Herms, as above.</summary>
    public static double ModifiedAverage(double minC, double maxC, double baseC, double upperC = double.PositiveInfinity) =>
        (Math.Clamp(minC, baseC, upperC) + Math.Clamp(maxC, baseC, upperC)) / 2 - baseC;

    /// <summary>
    /// N ≥ L: M − L; X ≤ L: 0; M ≥ L &gt; N: (X − L)/2 − (L − N)/4; M &lt; L &lt; X: (X − L)/4. The degree-day definition of Met Éireann.
    /// </summary>
    public static double FourCase(double minC, double maxC, double baseC)
    {
        var meanC = (minC + maxC) / 2;
        if (minC >= baseC)
            return meanC - baseC;
        if (maxC <= baseC)
            return 0;
        return meanC >= baseC
            ? (maxC - baseC) / 2 - (baseC - minC) / 4
            : (maxC - baseC) / 4;
    }

    /// <summary>
    /// The running total of <see cref="SimpleAverage"/>: <paramref name="totalCd"/>[d] is the sum up to and including day d. A missing
    /// day (NaN) adds nothing; the caller knows how many there are and what that is worth.
    /// </summary>
    public static void Accumulate(ReadOnlySpan<double> minC, ReadOnlySpan<double> maxC, double baseC, Span<double> totalCd)
    {
        if (maxC.Length != minC.Length || totalCd.Length != minC.Length)
            throw new ArgumentException("Minima, maxima and totals must be of the same length.");
        var sumCd = 0.0;
        for (var day = 0; day < minC.Length; day++)
        {
            var heatCd = (minC[day] + maxC[day]) / 2 - baseC;
            if (heatCd > 0)
                sumCd += heatCd;
            totalCd[day] = sumCd;
        }
    }
}
