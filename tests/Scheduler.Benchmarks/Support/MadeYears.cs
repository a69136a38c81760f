using NodaTime;

namespace Scheduler.Benchmarks.Support;

/// <summary>Invented daily extremes [C] of a temperate place: a yearly wave with changing weather on it, always the same.</summary>
internal sealed class MadeYears
{
    private const int Seed = 20250301;

    public MadeYears(LocalDate start, LocalDate end)
    {
        Start = start;
        var days = Period.DaysBetween(start, end) + 1;
        (MinC, MaxC) = (new double[days], new double[days]);
        var random = new Random(Seed);
        var weatherC = 0.0;
        for (var day = 0; day < days; day++)
        {
            // Warm and cold spells of about a week.
            weatherC = 0.85 * weatherC + 5 * (random.NextDouble() - 0.5);
            var meanC = 10 - 11 * Math.Cos(2 * Math.PI * (start.PlusDays(day).DayOfYear - 20) / 365.2425) + weatherC;
            var halfRangeC = 1.5 + 5 * random.NextDouble();
            (MinC[day], MaxC[day]) = (meanC - halfRangeC, meanC + halfRangeC);
        }
    }

    /// <summary>Thirty whole years.</summary>
    public static MadeYears Thirty => new(new LocalDate(1991, 1, 1), new LocalDate(2020, 12, 31));

    public LocalDate Start { get; }

    public double[] MinC { get; }

    public double[] MaxC { get; }

    public int Days => MinC.Length;
}
