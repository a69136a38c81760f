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

    /// <summary>Percentiles (nearest rank) of axis days; a draw that never comes is <see cref="double.PositiveInfinity"/>.</summary>
    public static DateBand Of(GrowthYear year, ReadOnlySpan<double> days)
    {
        var (early, likely, late) = Percentiles.Of(days);
        if (double.IsPositiveInfinity(likely))
            return NotExpected;
        return new(Date(year, early), Date(year, likely), double.IsPositiveInfinity(late) ? null : Date(year, late));
    }

    private static LocalDate Date(GrowthYear year, double day) => year.DateOf((int)Math.Floor(day));

    /// <summary>Place of a percentile among sorted days of which the last has the place <paramref name="last"/>.</summary>
    internal static int Rank(double share, int last) => (int)Math.Round(share * last, MidpointRounding.ToEven);
}
