using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Benchmarks.Replay;

/// <summary>
/// What is known on a day of a past season: observed days before it, and from it on a made forecast, which is the real weather and an
/// error that grows with the days ahead and shrinks as the day comes nearer: e(day, ahead) is the sum of the steps 0..ahead, each
/// 0.6 °C times a standard normal number that belongs to the day and the step and is shared by two thirds with the day before. That
/// gives a standard error of about 0.6 °C today, 1.6 °C in six days and 2 °C in ten (estimate: daily means of forecasts do about so).
/// Numbers come of a fixed hash, so a replay repeats to the bit.
/// </summary>
internal sealed class ReplayForecast(TemperatureSeries real, int days)
{
    private const double StepC = 0.6;
    private const double Shared = 0.66;

    public IReadOnlyList<DayWeather> KnownOn(LocalDate today, LocalDate from)
    {
        var known = new List<DayWeather>(Period.DaysBetween(from, today) + days);
        var last = LocalDate.Min(today.PlusDays(days - 1), real.End);
        for (var date = LocalDate.Max(from, real.Start); date <= last; date = date.PlusDays(1))
        {
            if (!real.Has(date))
                continue;
            var (minC, maxC) = (real.MinC[real.IndexOf(date)], real.MaxC[real.IndexOf(date)]);
            var ahead = Period.DaysBetween(today, date);
            var errorC = ahead < 0 ? 0 : ErrorC(date, ahead);
            known.Add(new DayWeather(date, minC + errorC, maxC + errorC, null, null, null, ahead < 0 ? DayKind.Observed : DayKind.Forecast));
        }
        return known;
    }

    private static double ErrorC(LocalDate date, int ahead)
    {
        var error = 0.0;
        for (var step = 0; step <= ahead; step++)
            error += StepC * (Shared * Normal(date.PlusDays(-1), step) + Math.Sqrt(1 - Shared * Shared) * Normal(date, step));
        return error;
    }

    // Sum of twelve uniform numbers less six: near enough to normal, and the same everywhere.
    private static double Normal(LocalDate date, int step)
    {
        var (sum, state) = (-6.0, ((ulong)(uint)Period.DaysBetween(new LocalDate(1900, 1, 1), date) << 8) + (uint)step);
        for (var draw = 0; draw < 12; draw++)
        {
            // SplitMix64 (public domain, from memory).
            state += 0x9E3779B97F4A7C15;
            var mixed = (state ^ (state >> 30)) * 0xBF58476D1CE4E5B9;
            mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
            sum += ((mixed ^ (mixed >> 31)) >> 11) * (1.0 / (1UL << 53));
        }
        return sum;
    }
}
