namespace Scheduler.Domain.Accumulation;

/// <summary>
/// A complete way of counting degree-days: method, base in °C and, where the source has one, an upper limit in °C with its cutoff.
/// </summary>
/// <remarks>
/// With D(t) the warmth above t: none D(L); horizontal D(L) − D(U); intermediate D(L) − 2·D(U); vertical D(L) − D(U) − (U − L)·f, f being
/// the share of the day above U. Zalom et al., Degree-days, University of California Leaflet 21373, 1983 (from memory).
/// The intermediate form can fall below 0 on very hot days and is then 0: a rule of this project, an estimate.
/// </remarks>
public sealed record DegreeDayRule
{
    public DegreeDayRule(DegreeDayMethod method, double baseC, double? upperC = null, Cutoff cutoff = Cutoff.None)
    {
        if (!Enum.IsDefined(method))
            throw new ArgumentOutOfRangeException(nameof(method));
        if (!double.IsFinite(baseC))
            throw new ArgumentOutOfRangeException(nameof(baseC), baseC, "The base must be a finite number of °C.");
        if (upperC is null != cutoff is Cutoff.None)
            throw new ArgumentException("An upper limit needs a cutoff, and a cutoff an upper limit.", nameof(cutoff));
        if (upperC is { } upper && !(double.IsFinite(upper) && upper > baseC))
            throw new ArgumentOutOfRangeException(nameof(upperC), upperC, "The upper limit must be finite and above the base.");
        if (cutoff is not Cutoff.None && !Takes(method, cutoff))
            throw new ArgumentException($"{method} has no {cutoff} cutoff.", nameof(cutoff));
        (Method, BaseC, UpperC, Cutoff) = (method, baseC, upperC, cutoff);
    }

    /// <summary>The project's convention: simple average, base 5 °C, no upper limit (an estimate, as a choice of convention).</summary>
    public static DegreeDayRule Canonical { get; } = new(DegreeDayMethod.SimpleAverage, 5);

    public DegreeDayMethod Method { get; }

    public double BaseC { get; }

    public double? UpperC { get; }

    public Cutoff Cutoff { get; }

    /// <summary>
    /// The warmth of one day in °C·day. Only the double methods look at tomorrow's minimum; NaN there means not known, and today's
    /// minimum stands in for it.
    /// </summary>
    public double OfDay(double minC, double maxC, double tomorrowMinC = double.NaN) => Method switch
    {
        DegreeDayMethod.SimpleAverage => DegreeDays.SimpleAverage(minC, maxC, BaseC),
        DegreeDayMethod.ModifiedAverage => DegreeDays.ModifiedAverage(minC, maxC, BaseC, UpperC ?? double.PositiveInfinity),
        DegreeDayMethod.FourCase => DegreeDays.FourCase(minC, maxC, BaseC),
        DegreeDayMethod.SingleSine or DegreeDayMethod.SingleTriangle => Math.Max(0, OfCurve(minC, maxC)),
        _ => Math.Max(0, (OfCurve(minC, maxC) + OfCurve(Evening(minC, tomorrowMinC), maxC)) / 2),
    };

    /// <summary>
    /// The running total up to and including each day. A missing day (NaN) adds nothing. With a double method the last day's value
    /// changes a little when tomorrow's minimum becomes known.
    /// </summary>
    public void Accumulate(ReadOnlySpan<double> minC, ReadOnlySpan<double> maxC, Span<double> totalCd)
    {
        switch (this)
        {
            case { Method: DegreeDayMethod.SimpleAverage }:
                DegreeDays.Accumulate(minC, maxC, BaseC, totalCd);
                return;
            case { Method: DegreeDayMethod.SingleSine, Cutoff: Cutoff.None }:
                DailyCurve.AccumulateSineAbove(minC, maxC, BaseC, totalCd);
                return;
        }
        if (maxC.Length != minC.Length || totalCd.Length != minC.Length)
            throw new ArgumentException("Minima, maxima and totals must be of the same length.");
        var sumCd = 0.0;
        for (var day = 0; day < minC.Length; day++)
        {
            if (!double.IsNaN(minC[day]))
                sumCd += OfDay(minC[day], maxC[day], day + 1 < minC.Length ? minC[day + 1] : double.NaN);
            totalCd[day] = sumCd;
        }
    }

    private static bool Takes(DegreeDayMethod method, Cutoff cutoff) => method switch
    {
        // Moving both extremes below the limit is itself the horizontal cutoff; no source defines another one for the averages.
        DegreeDayMethod.ModifiedAverage => cutoff is Cutoff.Horizontal,
        DegreeDayMethod.SimpleAverage or DegreeDayMethod.FourCase => false,
        _ => Enum.IsDefined(cutoff),
    };

    private static double Evening(double minC, double tomorrowMinC) => double.IsNaN(tomorrowMinC) ? minC : tomorrowMinC;

    // The evening half of a double method may rise, when tomorrow's minimum is above today's maximum.
    private double OfCurve(double oneEndC, double otherEndC)
    {
        double lowC = Math.Min(oneEndC, otherEndC), highC = Math.Max(oneEndC, otherEndC);
        var aboveBaseCd = Above(lowC, highC, BaseC);
        if (UpperC is not { } upperC)
            return aboveBaseCd;
        var aboveUpperCd = Above(lowC, highC, upperC);
        return Cutoff switch
        {
            Cutoff.Horizontal => aboveBaseCd - aboveUpperCd,
            Cutoff.Intermediate => aboveBaseCd - 2 * aboveUpperCd,
            _ => aboveBaseCd - aboveUpperCd - (upperC - BaseC) * ShareAbove(lowC, highC, upperC),
        };
    }

    private bool IsSine => Method is DegreeDayMethod.SingleSine or DegreeDayMethod.DoubleSine;

    private double Above(double lowC, double highC, double thresholdC) =>
        IsSine ? DailyCurve.SineAbove(lowC, highC, thresholdC) : DailyCurve.TriangleAbove(lowC, highC, thresholdC);

    private double ShareAbove(double lowC, double highC, double thresholdC) =>
        IsSine ? DailyCurve.SineShareAbove(lowC, highC, thresholdC) : DailyCurve.TriangleShareAbove(lowC, highC, thresholdC);
}
