using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Weather;

/// <summary>
/// In which order the past of a cell is fetched: from the start of this season to now, then backwards in steps of five years, so that
/// the last ten years are there before the older ones.
/// </summary>
internal static class Backfill
{
    /// <summary>Thirty years are the usual length of a climate normal (WMO).</summary>
    public const int YearsWanted = 30;

    // Seasons begin within a winter, so the winter that the first season cuts in two must not be one of the thirty.
    private const int SeasonsFetched = YearsWanted + 1;

    /// <summary>The pinned archive model is this many days behind, as its operator documents (five), and one to be safe.</summary>
    public const int ArchiveLagDays = 6;

    private const int StepYears = 5;
    private const int ShortestFirstStepDays = 60;

    /// <summary>The first day of the season that today belongs to, when chill begins to count.</summary>
    public static LocalDate SeasonStart(double latitude, LocalDate today) =>
        GrowthYear.Of(today, Hemisphere.OfLatitude(latitude)).ChillStart;

    /// <summary>From here there are thirty whole winters and seasons before the present one.</summary>
    public static LocalDate WantedFrom(double latitude, LocalDate today) => SeasonStart(latitude, today).PlusYears(-SeasonsFetched);

    /// <summary>Both days inclusive; null when all is there.</summary>
    public static DateInterval? Next(WeatherCell cell, LocalDate today)
    {
        if (cell.FilledFrom is not { } filled)
        {
            var from = LocalDate.Min(SeasonStart(cell.Latitude, today), today.PlusDays(-ShortestFirstStepDays));
            return new DateInterval(from, today.PlusDays(-ArchiveLagDays));
        }
        if (filled <= cell.WantedFrom)
            return null;
        var start = filled.PlusYears(-StepYears);
        // A rest of a year or less is not worth a request of its own.
        return new DateInterval(start.PlusYears(-1) <= cell.WantedFrom ? cell.WantedFrom : start, filled.PlusDays(-1));
    }

    /// <summary>Whole past years of the cell that are there.</summary>
    public static int YearsDone(WeatherCell cell, LocalDate today)
    {
        var start = SeasonStart(cell.Latitude, today);
        return cell.FilledFrom is { } filled && filled < start
            ? Math.Min(YearsWanted, Period.Between(filled, start, PeriodUnits.Years).Years) : 0;
    }
}
