using System.Runtime.CompilerServices;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Accumulation;

/// <summary>
/// Chill portions by the dynamic model for walking many years: <see cref="DynamicModel"/> with the two exponentials of an hour read
/// from a table. This value is the whole state: copy it to go on from the same point more than once.
/// </summary>
/// <remarks>
/// The share that is fixed, xi, is rarely needed and is worked out in full, so portions differ from the exact model's by some
/// millionths. When an hour leaves the product just at 1, one of the two models may fix its portion an hour later than the other.
/// </remarks>
public record struct TabulatedChill
{
    // Hours 2:00 to 14:00 of the day sine.
    private const int RisingHours = 13;

    private double _left;
    private double _lastC;
    private bool _hasLast;

    /// <summary>Portions booked so far. They never decrease.</summary>
    public double Portions { get; private set; }

    /// <summary>Goes on by one hour; a missing hour (NaN) has no effect.</summary>
    public void Step(double temperatureC)
    {
        var portions = Portions;
        _left = Effect(_left, LastHour(), ref portions);
        Portions = portions;
        Remember(temperatureC);
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
        // The falling half of the day has the temperatures of the rising half, so 13 look-ups serve 24 hours.
        Span<ChillHour> rising = stackalloc ChillHour[RisingHours];
        var shares = HourlyCurve.RisingShares[..RisingHours];
        var (left, portions, lastHour) = (_left, Portions, LastHour());
        for (var day = 0; day < minC.Length; day++)
        {
            double lowC = minC[day], rangeC = maxC[day] - lowC;
            for (var hour = 0; hour < rising.Length; hour++)
                rising[hour] = ChillHourTable.At(lowC + rangeC * shares[hour]);

            left = Effect(left, lastHour, ref portions);
            left = Effect(left, rising[2], ref portions);
            left = Effect(left, rising[1], ref portions);
            for (var hour = 0; hour < rising.Length; hour++)
                left = Effect(left, rising[hour], ref portions);
            for (var hour = rising.Length - 2; hour > 3; hour--)
                left = Effect(left, rising[hour], ref portions);
            lastHour = rising[3];
            totalPortions[day] = portions;
        }
        (_left, Portions) = (left, portions);
        if (minC.Length > 0)
            Remember(lastHour.TemperatureC);
    }

    private readonly ChillHour LastHour() => _hasLast ? ChillHourTable.At(_lastC) : ChillHour.Missing;

    private void Remember(double temperatureC)
    {
        _hasLast = !double.IsNaN(temperatureC);
        _lastC = _hasLast ? temperatureC : 0;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Effect(double left, in ChillHour hour, ref double portions)
    {
        var x = Math.FusedMultiplyAdd(hour.Kept, left, hour.Gained);
        return x >= 1 ? Fix(x, hour.TemperatureC, ref portions) : x;
    }

    // Kept out of the hot loop: it happens about once a day.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static double Fix(double x, double temperatureC, ref double portions)
    {
        // In hard frost the product waits above 1, and a missing hour must leave it there.
        if (double.IsNaN(temperatureC))
            return x;
        var xi = DynamicModel.FixedShare(temperatureC);
        portions += x * xi;
        return x * (1 - xi);
    }
}
