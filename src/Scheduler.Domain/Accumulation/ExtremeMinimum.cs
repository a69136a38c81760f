using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Accumulation;

/// <summary>The lowest temperature of each winter of a series, in °C; their mean decides the hardiness zone.</summary>
/// <remarks>
/// A winter runs from 1 July to 30 June in the north and over the calendar year in the south, so that no cold spell is cut in two.
/// A winter counts when at most <see cref="MissingDaysAllowed"/> of its days are missing (an estimate).
/// </remarks>
public static class ExtremeMinimum
{
    public const int MissingDaysAllowed = 10;

    /// <summary>One value a winter, oldest first; the year is the one in which the winter's twelve months begin.</summary>
    public static IReadOnlyList<(int Year, double MinC)> OfWinters(TemperatureSeries series, Hemisphere hemisphere)
    {
        ArgumentNullException.ThrowIfNull(series);
        var winters = new List<(int, double)>();
        for (var year = series.Start.Year - 1; year <= series.End.Year; year++)
        {
            var start = new LocalDate(year, hemisphere is Hemisphere.North ? 7 : 1, 1);
            if (Lowest(series, start, start.PlusYears(1).PlusDays(-1)) is { } minC)
                winters.Add((year, minC));
        }
        return winters;
    }

    /// <summary>The mean over all winters that count, or null when there is none.</summary>
    public static double? MeanC(TemperatureSeries series, Hemisphere hemisphere)
    {
        var winters = OfWinters(series, hemisphere);
        return winters.Count == 0 ? null : winters.Average(winter => winter.MinC);
    }

    private static double? Lowest(TemperatureSeries series, LocalDate from, LocalDate to)
    {
        if (from.PlusDays(MissingDaysAllowed) < series.Start || to.PlusDays(-MissingDaysAllowed) > series.End)
            return null;
        var lowest = double.PositiveInfinity;
        var missing = 0;
        foreach (var minC in series.Slice(from, to).MinC)
        {
            if (double.IsNaN(minC))
                missing++;
            else
                lowest = Math.Min(lowest, minC);
        }
        return missing <= MissingDaysAllowed ? lowest : null;
    }
}
