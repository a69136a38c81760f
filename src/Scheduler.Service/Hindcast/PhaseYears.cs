using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Hindcast;

/// <summary>
/// Which growth year's axis a phase's year means. Spring phases carry the growth year itself; an autumn carries its
/// calendar year, which in the south is one more than that of the growth year it ends. Some southern records number their
/// autumns by the growth year all the same; their dates show it.
/// </summary>
internal static class PhaseYears
{
    private const int FirstDay = -30;
    private const int LastDay = 487;
    private const int FirstAutumnDay = 300;
    private const int LastSouthernAutumnMonth = 7;

    public static bool IsAutumn(string phase) => PhaseClasses.Of(phase) == PhaseClass.Autumn;

    /// <summary>The growth year behind a stated year.</summary>
    /// <param name="autumnsByGrowthYear">Whether this southern record numbers its autumns by growth year.</param>
    public static GrowthYear Of(string phase, int year, Hemisphere hemisphere, bool autumnsByGrowthYear) =>
        new(IsAutumn(phase) && hemisphere == Hemisphere.South && !autumnsByGrowthYear ? year - 1 : year, hemisphere);

    /// <summary>The growth year a date of this phase belongs to.</summary>
    public static GrowthYear Of(string phase, LocalDate date, Hemisphere hemisphere)
    {
        if (!IsAutumn(phase))
            return GrowthYear.Of(date, hemisphere);
        return new GrowthYear(hemisphere == Hemisphere.South && date.Month <= LastSouthernAutumnMonth ? date.Year - 1 : date.Year, hemisphere);
    }

    /// <summary>The year a growth year's phase is told under: the calendar year of an autumn, else the growth year.</summary>
    public static int Stated(string phase, GrowthYear year) =>
        IsAutumn(phase) && year.Hemisphere == Hemisphere.South ? year.Year + 1 : year.Year;

    /// <summary>Whether a date can be meant by a phase's year.</summary>
    public static bool Fits(string phase, GrowthYear year, LocalDate date) =>
        year.DayOf(date) >= (IsAutumn(phase) ? FirstAutumnDay : FirstDay) && year.DayOf(date) <= LastDay;
}
