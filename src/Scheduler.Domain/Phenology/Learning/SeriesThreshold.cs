namespace Scheduler.Domain.Phenology.Learning;

/// <summary>What relatives suggest for a series before its own dates count.</summary>
/// <param name="Mean">Expected value; null when there is no relative at all.</param>
/// <param name="Spread">How far the truth may be from it.</param>
public readonly record struct Prior(double? Mean, double Spread);

/// <summary>
/// The threshold of one series on one shape: a robust mean of the index at the dates seen, drawn towards what relatives
/// suggest. Keeps each year's value, so that a year can be taken out again.
/// </summary>
/// <remarks>
/// F = (sum w h / s^2 + mu / t^2) / (sum w / s^2 + 1 / t^2), w = min(1, c s_r / |h - F|) (Huber 1964), s_r the robust spread
/// (1.48 median absolute deviation) of all series of the group; four rounds from the median.
/// </remarks>
public sealed class SeriesThreshold
{
    private readonly double[] _values;
    private readonly double[] _weights;
    private readonly double _yearPrecision;
    private readonly double _priorPrecision;
    private readonly double _priorMean;

    private SeriesThreshold(double[] values, double[] weights, Prior prior, double yearSpread)
    {
        _values = values;
        _weights = weights;
        _yearPrecision = 1 / (yearSpread * yearSpread);
        _priorPrecision = prior.Mean is null ? 0 : 1 / (prior.Spread * prior.Spread);
        _priorMean = prior.Mean ?? 0;
        Value = Without(-1);
        Variance = 1 / Math.Max(1e-9, weights.Sum() * _yearPrecision + _priorPrecision);
    }

    /// <summary>The threshold, in index units.</summary>
    public double Value { get; }

    /// <summary>How uncertain it is, in squared index units.</summary>
    public double Variance { get; }

    /// <summary>The threshold as it would be without one of the years.</summary>
    public double Without(int index)
    {
        double sum = _priorMean * _priorPrecision, precision = _priorPrecision;
        for (var year = 0; year < _values.Length; year++)
        {
            if (year == index)
                continue;
            sum += _weights[year] * _yearPrecision * _values[year];
            precision += _weights[year] * _yearPrecision;
        }
        return precision > 0 ? sum / precision : double.NaN;
    }

    /// <param name="shared">What the place's other plants had in common in each year; already taken off the values.</param>
    /// <param name="robustSpread">Spread of single years over the whole group; 0 keeps all weights at 1.</param>
    public static SeriesThreshold Fit(double[] values, double[] shared, Prior prior, double robustSpread, ClockRules rules)
    {
        var weights = new double[values.Length];
        weights.AsSpan().Fill(1);
        var center = values.Length == 0 ? 0 : values.Length < 3 && prior.Mean is { } mean ? mean : Median(values);
        var reach = rules.HuberSpreads * Math.Max(robustSpread, 0.02);
        for (var round = 0; round < 4 && values.Length > 0; round++)
        {
            for (var year = 0; year < values.Length; year++)
            {
                // With one or two dates the prior is the yardstick, but a wide one: a place may differ from its relatives.
                var limit = values.Length < 3 && prior.Mean is not null ? Math.Max(reach, prior.Spread) : reach;
                // A year in which all plants of the place were far off is doubtful even after taking that off.
                var trust = Math.Min(1, reach / Math.Max(1e-9, Math.Abs(shared[year])));
                weights[year] = trust * trust * Math.Min(1, limit / Math.Max(1e-9, Math.Abs(values[year] - center)));
            }
            center = values.Length < 3 && prior.Mean is not null ? center : new SeriesThreshold(values, weights, prior, rules.YearSpread).Value;
        }
        return new SeriesThreshold(values, weights, prior, rules.YearSpread);
    }

    public static double Median(IReadOnlyCollection<double> values)
    {
        var sorted = values.Order().ToArray();
        return sorted.Length == 0 ? double.NaN
            : sorted.Length % 2 == 1 ? sorted[sorted.Length / 2]
            : (sorted[sorted.Length / 2 - 1] + sorted[sorted.Length / 2]) / 2;
    }
}
