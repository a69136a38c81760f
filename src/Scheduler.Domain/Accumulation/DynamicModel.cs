using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Accumulation;

/// <summary>
/// Chill portions by the dynamic model: cold builds an intermediate product that warmth destroys again; once it reaches 1, a share of
/// it is fixed as a portion for good. This value is the whole state: copy it to go on from the same point more than once.
/// </summary>
/// <remarks>
/// Fishman, Erez and Couvillon, J. Theor. Biol. 124 and 126, 1987 (volumes from memory); Erez et al. 1990. Hourly, T in K as °C + 273:
/// xs = (A0/A1)·exp((E1 − E0)/T), k1 = A1·exp(−E1/T), x' = xs − (xs − S)·exp(−k1), sr = exp(slope·Tf·(T − Tf)/T), xi = sr/(1 + sr).
/// When x' ≥ 1, x'·xi portions are booked and S of the next hour is x'·(1 − xi), else S is x'.
/// As in the published code (R package chillR) the step that leads to hour i uses the temperature of hour i − 1, and the first
/// hour finds x = 0; so the state keeps the last temperature and takes its effect when the next hour arrives.
/// </remarks>
public struct DynamicModel : IEquatable<DynamicModel>
{
    private const double E0 = 4153.5;
    private const double E1 = 12888.8;
    private const double A0 = 139_500;
    private const double A1 = 2.567e18;
    private const double Slope = 1.6;
    private const double FreezingPointK = 277;
    private const double ZeroCelsiusK = 273;

    private double _left;
    private double _lastC;
    private bool _hasLast;

    /// <summary>Portions booked so far. They never decrease.</summary>
    public double Portions { get; private set; }

    /// <summary>
    /// Goes on by one hour. A missing hour (NaN) has no effect: what was built stays, nothing is built or destroyed.
    /// </summary>
    public void Step(double temperatureC)
    {
        if (_hasLast)
            TakeEffect(_lastC);
        _hasLast = !double.IsNaN(temperatureC);
        _lastC = _hasLast ? temperatureC : 0;
    }

    public void Step(ReadOnlySpan<double> hourlyC)
    {
        foreach (var temperatureC in hourlyC)
            Step(temperatureC);
    }

    /// <summary>
    /// Goes on through whole days with the day sine of <see cref="HourlyCurve"/>; <paramref name="totalPortions"/>[d] is the sum at the
    /// end of day d.
    /// </summary>
    public void StepDays(ReadOnlySpan<double> minC, ReadOnlySpan<double> maxC, Span<double> totalPortions)
    {
        if (maxC.Length != minC.Length || totalPortions.Length != minC.Length)
            throw new ArgumentException("Minima, maxima and totals must be of the same length.");
        Span<double> hours = stackalloc double[HourlyCurve.HoursADay];
        for (var day = 0; day < minC.Length; day++)
        {
            HourlyCurve.DaySine(minC[day], maxC[day], hours);
            Step(hours);
            totalPortions[day] = Portions;
        }
    }

    private void TakeEffect(double temperatureC)
    {
        var (xs, kept) = Building(temperatureC);
        var x = xs - (xs - _left) * kept;
        if (x >= 1)
        {
            var xi = FixedShare(temperatureC);
            Portions += x * xi;
            x *= 1 - xi;
        }
        _left = x;
    }

    /// <summary>xs, where an hour drives the product, and exp(-k1), the share of the way there that it leaves undone.</summary>
    internal static (double Xs, double Kept) Building(double temperatureC)
    {
        var t = temperatureC + ZeroCelsiusK;
        return (A0 / A1 * Math.Exp((E1 - E0) / t), Math.Exp(-A1 * Math.Exp(-E1 / t)));
    }

    /// <summary>xi, the share of a full product that an hour fixes as portions.</summary>
    internal static double FixedShare(double temperatureC)
    {
        var t = temperatureC + ZeroCelsiusK;
        var sr = Math.Exp(Slope * FreezingPointK * (t - FreezingPointK) / t);
        return sr / (1 + sr);
    }

    public readonly bool Equals(DynamicModel other) =>
        (_left, _lastC, _hasLast, Portions) == (other._left, other._lastC, other._hasLast, other.Portions);

    public override readonly bool Equals(object? obj) => obj is DynamicModel other && Equals(other);

    public override readonly int GetHashCode() => HashCode.Combine(_left, _lastC, _hasLast, Portions);

    public static bool operator ==(DynamicModel left, DynamicModel right) => left.Equals(right);

    public static bool operator !=(DynamicModel left, DynamicModel right) => !left.Equals(right);
}
