using System.Runtime.CompilerServices;

namespace Scheduler.Domain.Accumulation;

/// <summary>
/// What a day's sine or triangle between its extremes says about one threshold t: the warmth above it, in °C·day, and the share of
/// the day spent above it.
/// </summary>
/// <remarks>
/// N minimum, X maximum, M = (N + X)/2, W = (X − N)/2. Sine: Baskerville and Emin, Rapid estimation of heat accumulation from maximum
/// and minimum temperatures, Ecology 50, 1969; Allen, A modified sine wave method, Environ. Entomol. 5:388-396, 1976. Triangle: Zalom
/// et al., Degree-days, University of California Leaflet 21373, 1983 (from memory). Assumes that the day rises and falls evenly.
/// </remarks>
public static class DailyCurve
{
    /// <summary>X ≤ t: 0; N ≥ t: M − t; else sin θ = (t − M)/W and ((M − t)(π/2 − θ) + W·cos θ)/π; π/2 − θ is acos((t − M)/W).</summary>
    public static double SineAbove(double minC, double maxC, double thresholdC)
    {
        if (maxC <= thresholdC)
            return 0;
        if (minC >= thresholdC)
            return (minC + maxC) / 2 - thresholdC;
        return SineAcross(minC, maxC, thresholdC);
    }

    /// <summary>
    /// The running total of <see cref="SineAbove"/>: <paramref name="totalCd"/>[d] is the sum up to and including day d. A missing day
    /// (NaN) adds nothing.
    /// </summary>
    public static void AccumulateSineAbove(ReadOnlySpan<double> minC, ReadOnlySpan<double> maxC, double thresholdC, Span<double> totalCd)
    {
        if (maxC.Length != minC.Length || totalCd.Length != minC.Length)
            throw new ArgumentException("Minima, maxima and totals must be of the same length.");
        // One length for all three, so that no index needs a check of its own.
        maxC = maxC[..minC.Length];
        totalCd = totalCd[..minC.Length];
        var sumCd = 0.0;
        for (var day = 0; day < minC.Length; day++)
        {
            double lowC = minC[day], highC = maxC[day];
            if (lowC >= thresholdC)
                sumCd += (lowC + highC) / 2 - thresholdC;
            else if (highC > thresholdC)
                sumCd += SineAcross(lowC, highC, thresholdC);
            totalCd[day] = sumCd;
        }
    }

    // With q = |t − M|/W, the warmth above t is W·(√(1 − q²) − q·acos q)/π, and M − t on top where the mean is above t.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double SineAcross(double minC, double maxC, double thresholdC)
    {
        double aboveC = (minC + maxC) / 2 - thresholdC, halfRangeC = (maxC - minC) / 2;
        var q = Math.Abs(aboveC) / halfRangeC;
        // Rounding may put a threshold between the extremes a hair outside of them.
        var tipCd = q < 1 ? halfRangeC / Math.PI * (Math.Sqrt(1 - q * q) - q * ArcCosine.Of(q)) : 0;
        return (aboveC > 0 ? aboveC : 0) + (tipCd > 0 ? tipCd : 0);
    }

    /// <summary>(π/2 − θ)/π with the same θ.</summary>
    public static double SineShareAbove(double minC, double maxC, double thresholdC)
    {
        if (maxC <= thresholdC)
            return 0;
        if (minC >= thresholdC)
            return 1;
        var sine = (thresholdC - (minC + maxC) / 2) / ((maxC - minC) / 2);
        return Math.Acos(Math.Clamp(sine, -1, 1)) / Math.PI;
    }

    /// <summary>X ≤ t: 0; N ≥ t: M − t; else (X − t)²/(2(X − N)).</summary>
    public static double TriangleAbove(double minC, double maxC, double thresholdC)
    {
        if (maxC <= thresholdC)
            return 0;
        if (minC >= thresholdC)
            return (minC + maxC) / 2 - thresholdC;
        return (maxC - thresholdC) * (maxC - thresholdC) / (2 * (maxC - minC));
    }

    /// <summary>(X − t)/(X − N).</summary>
    public static double TriangleShareAbove(double minC, double maxC, double thresholdC)
    {
        if (maxC <= thresholdC)
            return 0;
        return minC >= thresholdC ? 1 : (maxC - thresholdC) / (maxC - minC);
    }
}
