namespace Scheduler.Domain.Phenology.Learning;

/// <summary>What relatives suggest for a series before its own dates count.</summary>
/// <param name="Mean">Expected value; null when there is no relative at all.</param>
/// <param name="Spread">How far the truth may be from it.</param>
public readonly record struct Prior(double? Mean, double Spread);

/// <summary>
/// The threshold of one series on one shape: a robust mean of the index at the dates seen, drawn towards what relatives
/// suggest. Keeps each year's value, so that a year can be taken out again. Plants, observers and stations change: for one
/// year, those near it count more, and what they leave unsaid relatives say.
/// </summary>
/// <remarks>
/// F(y) = (sum w n h / s^2 + mu / t^2) / (sum w n / s^2 + 1 / t^2), w = min(1, c s_r / |h - F|) (Huber 1964), s_r the robust spread
/// (1.48 median absolute deviation) of all series of the group; four rounds from the median; n the weight of a year for the
/// year y (<see cref="NearbyYears"/>).
/// </remarks>
public sealed class SeriesThreshold
{
    private readonly double[] _values;
    private readonly int[] _years;
    private readonly double[] _weights;
    private readonly double _yearPrecision;
    private readonly double _priorPrecision;
    private readonly double _priorMean;

    private SeriesThreshold(double[] values, int[] years, double[] weights, Prior prior, double yearSpread)
    {
        (_values, _years, _weights) = (values, years, weights);
        _yearPrecision = 1 / (yearSpread * yearSpread);
        _priorPrecision = prior.Mean is null ? 0 : 1 / (prior.Spread * prior.Spread);
        _priorMean = prior.Mean ?? 0;
        (Value, Variance) = Weighed(null, -1);
    }

    /// <summary>The threshold of all years alike, in index units.</summary>
    public double Value { get; }

    /// <summary>How uncertain it is, in squared index units.</summary>
    public double Variance { get; }

    /// <summary>The threshold of one year.</summary>
    /// <param name="withoutIndex">Which of the dates must not teach; -1: all do.</param>
    public double At(int year, int withoutIndex = -1) => Weighed(year, withoutIndex).Mean;

    /// <summary>How uncertain the threshold of one year is, in squared index units.</summary>
    public double VarianceAt(int year) => Weighed(year, -1).Variance;

    private (double Mean, double Variance) Weighed(int? target, int without)
    {
        double sum = _priorMean * _priorPrecision, precision = _priorPrecision;
        for (var date = 0; date < _values.Length; date++)
        {
            if (date == without)
                continue;
            var own = _weights[date] * _yearPrecision * (target is { } year ? NearbyYears.Weight(_years[date], year) : 1);
            sum += own * _values[date];
            precision += own;
        }
        return (precision > 0 ? sum / precision : double.NaN, 1 / Math.Max(1e-9, precision));
    }

    /// <param name="values">The index on the dates seen.</param>
    /// <param name="years">Their years.</param>
    /// <param name="shared">What the place's other plants had in common in each year; already taken off the values.</param>
    /// <param name="robustSpread">Spread of single years over the whole group; 0 keeps all weights at 1.</param>
    public static SeriesThreshold Fit(double[] values, int[] years, double[] shared, Prior prior, double robustSpread, ClockRules rules)
    {
        var weights = new double[values.Length];
        weights.AsSpan().Fill(1);
        var center = values.Length == 0 ? 0 : values.Length < 3 && prior.Mean is { } mean ? mean : Median(values);
        var reach = rules.HuberSpreads * Math.Max(robustSpread, 0.02);
        for (var round = 0; round < 4 && values.Length > 0; round++)
        {
            for (var date = 0; date < values.Length; date++)
            {
                // With one or two dates the prior is the yardstick, but a wide one: a place may differ from its relatives.
                var limit = values.Length < 3 && prior.Mean is not null ? Math.Max(reach, prior.Spread) : reach;
                // A year in which all plants of the place were far off is doubtful even after taking that off.
                var trust = Math.Min(1, reach / Math.Max(1e-9, Math.Abs(shared[date])));
                weights[date] = trust * trust * Math.Min(1, limit / Math.Max(1e-9, Math.Abs(values[date] - center)));
            }
            center = values.Length < 3 && prior.Mean is not null ? center : new SeriesThreshold(values, years, weights, prior, rules.YearSpread).Value;
        }
        return new SeriesThreshold(values, years, weights, prior, rules.YearSpread);
    }

    public static double Median(IReadOnlyCollection<double> values)
    {
        var sorted = values.Order().ToArray();
        return sorted.Length == 0 ? double.NaN
            : sorted.Length % 2 == 1 ? sorted[sorted.Length / 2]
            : (sorted[sorted.Length / 2 - 1] + sorted[sorted.Length / 2]) / 2;
    }
}
