namespace Scheduler.Domain.Phenology.Learning;

/// <summary>Quantiles of the standard normal distribution, for evenly likely draws without chance.</summary>
public static class StandardNormal
{
    /// <summary>Middles of so many equally likely parts.</summary>
    public static double[] Middles(int parts) => [.. Enumerable.Range(0, parts).Select(part => Quantile((part + 0.5) / parts))];

    /// <summary>Abramowitz and Stegun (1964), 26.2.23: absolute error below 4.5e-4.</summary>
    public static double Quantile(double share)
    {
        if (share is <= 0 or >= 1)
            throw new ArgumentOutOfRangeException(nameof(share), share, "A quantile needs a share between 0 and 1.");
        var t = Math.Sqrt(-2 * Math.Log(Math.Min(share, 1 - share)));
        var value = t - (2.515517 + 0.802853 * t + 0.010328 * t * t) / (1 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t * t * t);
        return share < 0.5 ? -value : value;
    }
}
