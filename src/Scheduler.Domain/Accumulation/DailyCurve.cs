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
    /// <summary>X ≤ t: 0; N ≥ t: M − t; else θ = asin((t − M)/W) and ((M − t)(π/2 − θ) + W·cos θ)/π.</summary>
    public static double SineAbove(double minC, double maxC, double thresholdC)
    {
        if (maxC <= thresholdC)
            return 0;
        var meanC = (minC + maxC) / 2;
        if (minC >= thresholdC)
            return meanC - thresholdC;
        var halfRangeC = (maxC - minC) / 2;
        var theta = Math.Asin(Math.Clamp((thresholdC - meanC) / halfRangeC, -1, 1));
        return Math.Max(0, ((meanC - thresholdC) * (Math.PI / 2 - theta) + halfRangeC * Math.Cos(theta)) / Math.PI);
    }

    /// <summary>(π/2 − asin((t − M)/W))/π.</summary>
    public static double SineShareAbove(double minC, double maxC, double thresholdC)
    {
        if (maxC <= thresholdC)
            return 0;
        if (minC >= thresholdC)
            return 1;
        var sine = (thresholdC - (minC + maxC) / 2) / ((maxC - minC) / 2);
        return (Math.PI / 2 - Math.Asin(Math.Clamp(sine, -1, 1))) / Math.PI;
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
