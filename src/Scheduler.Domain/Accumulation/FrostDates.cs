using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Accumulation;

/// <summary>
/// The last frost of spring and the first of autumn, year by year. A frost is a day whose minimum, at about 2 m, is 0 °C or lower
/// (the usual meaning of an air frost); the ground and a bench may freeze earlier.
/// </summary>
/// <remarks>
/// The season starts on 1 January in the north and 1 July in the south and is halved six months later: its first half holds the
/// spring, its second the autumn. A year is listed only when the answer is certain: no day is missing between the frost and the end of
/// its spring (or the start of its autumn), and none at all where there was no frost.
/// </remarks>
public static class FrostDates
{
    public const double FrostC = 0;

    public static FrostRecord LastOfSpring(TemperatureSeries series, Hemisphere hemisphere, double frostC = FrostC)
    {
        ArgumentNullException.ThrowIfNull(series);
        return Collect(series, hemisphere, FrostKind.LastOfSpring, (from, to) =>
        {
            for (var date = to; date >= from; date = date.PlusDays(-1))
            {
                if (!series.Has(date))
                    return (Known: false, null);
                if (series.MinC[series.IndexOf(date)] <= frostC)
                    return (true, date);
            }
            return (true, null);
        });
    }

    public static FrostRecord FirstOfAutumn(TemperatureSeries series, Hemisphere hemisphere, double frostC = FrostC)
    {
        ArgumentNullException.ThrowIfNull(series);
        return Collect(series, hemisphere, FrostKind.FirstOfAutumn, (from, to) =>
        {
            for (var date = from; date <= to; date = date.PlusDays(1))
            {
                if (!series.Has(date))
                    return (Known: false, null);
                if (series.MinC[series.IndexOf(date)] <= frostC)
                    return (true, date);
            }
            return (true, null);
        });
    }

    private static FrostRecord Collect(
        TemperatureSeries series,
        Hemisphere hemisphere,
        FrostKind kind,
        Func<LocalDate, LocalDate, (bool Known, LocalDate? Date)> search)
    {
        // January to June is spring in the north and autumn in the south.
        var firstMonth = hemisphere is Hemisphere.North == kind is FrostKind.LastOfSpring ? 1 : 7;
        var years = new List<FrostYear>();
        for (var year = series.Start.Year; year <= series.End.Year; year++)
        {
            var from = new LocalDate(year, firstMonth, 1);
            if (search(from, from.PlusMonths(6).PlusDays(-1)) is (true, var date))
                years.Add(new FrostYear(year, date));
        }
        return new FrostRecord(hemisphere, kind, years);
    }
}
