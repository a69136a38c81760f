using NodaTime;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// Early, likely and late date of one thing to come: 10th, 50th and 90th percentile over all draws of the ensemble.
/// All three are null when more than half of the draws never reach it: not expected this season. Only late is null when
/// it is likely to come but one draw in ten or more never reaches it: no date is late enough.
/// </summary>
public readonly record struct DateBand(LocalDate? Early, LocalDate? Likely, LocalDate? Late)
{
    public static readonly DateBand NotExpected = new(null, null, null);

    public bool IsExpected => Likely is not null;

    public static DateBand On(LocalDate date) => new(date, date, date);

    /// <summary>
    /// Percentiles (nearest rank) of axis days, which are sorted in place; a draw that never comes is
    /// <see cref="double.PositiveInfinity"/>.
    /// </summary>
    public static DateBand Of(GrowthYear year, Span<double> days)
    {
        if (days.Length == 0)
            return NotExpected;
        days.Sort();
        var likely = Quantile(days, 0.5);
        if (double.IsPositiveInfinity(likely))
            return NotExpected;
        var late = Quantile(days, 0.9);
        return new(Date(year, Quantile(days, 0.1)), Date(year, likely), double.IsPositiveInfinity(late) ? null : Date(year, late));
    }

    private static LocalDate Date(GrowthYear year, double day) => year.DateOf((int)Math.Floor(day));

    private static double Quantile(ReadOnlySpan<double> sorted, double share) =>
        sorted[Rank(share, sorted.Length - 1)];

    /// <summary>Place of a percentile among sorted days of which the last has the place <paramref name="last"/>.</summary>
    internal static int Rank(double share, int last) => (int)Math.Round(share * last, MidpointRounding.ToEven);
}
