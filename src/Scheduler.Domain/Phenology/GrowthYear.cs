using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// One year of growth, named after the calendar year in which its spring begins, with the fixed day axis all seasonal
/// arithmetic uses: day 0 is 1 September before a northern spring (1 March before a southern one), when chill begins
/// to count. Heat counts from 1 January (1 July). Both hemispheres share every formula; only the start differs.
/// </summary>
public readonly record struct GrowthYear(int Year, Hemisphere Hemisphere)
{
    // September to December and March to June are both 122 days long, so heat starts on the same axis day everywhere.
    private const int DaysBeforeHeat = 122;
    // 1 September, of a year without leap day.
    private const int ChillStartDayOfYear = 244;
    private const int NorthernLeapDay = DaysBeforeHeat + 31 + 28;
    private const int SouthernLeapDay = 365;

    private bool North => Hemisphere == Hemisphere.North;

    /// <summary>Day 0 of the axis: chill counts from here.</summary>
    public LocalDate ChillStart => North ? new LocalDate(Year - 1, 9, 1) : new LocalDate(Year, 3, 1);

    /// <summary>Heat counts from here (common convention of degree-day work).</summary>
    public LocalDate HeatStart => North ? new LocalDate(Year, 1, 1) : new LocalDate(Year, 7, 1);

    /// <summary>
    /// First day on which work belongs to this growth year: dormant work counts for the coming season. The turn is
    /// put at 1 December (1 June), when leaf fall is over in most temperate gardens (estimate).
    /// </summary>
    public LocalDate Turn => North ? new LocalDate(Year - 1, 12, 1) : new LocalDate(Year, 6, 1);

    /// <summary>Last day of the axis: autumn is over.</summary>
    public LocalDate AxisEnd => North ? new LocalDate(Year, 12, 31) : new LocalDate(Year + 1, 6, 30);

    public int Days => Period.DaysBetween(ChillStart, AxisEnd) + 1;
    public int HeatStartDay => DaysBeforeHeat;

    /// <summary>About the longest day, after which autumn events are looked for: 1 July (30 June in leap years) or 29 December.</summary>
    public int MidsummerDay => HeatStartDay + 181;

    /// <summary>True when 29 February lies on the axis.</summary>
    public bool HasLeapDay => CalendarSystem.Iso.IsLeapYear(North ? Year : Year + 1);

    /// <summary>
    /// Day of the year by the sun, 1-365, as if the axis lay in the north: a southern year is a northern one half a year later.
    /// The sun's own halves are unequal by up to four days, which is left out (a few minutes of day length).
    /// </summary>
    public static int SolarDayOfYear(int day) => (ChillStartDayOfYear - 1 + day) % 365 + 1;

    public GrowthYear Next => this with { Year = Year + 1 };
    public GrowthYear Previous => this with { Year = Year - 1 };

    public int DayOf(LocalDate date) => Period.DaysBetween(ChillStart, date);
    public LocalDate DateOf(int day) => ChillStart.PlusDays(day);
    public bool Contains(LocalDate date) => date >= Turn && date < Next.Turn;

    /// <summary>The growth year that work on this day belongs to.</summary>
    public static GrowthYear Of(LocalDate date, Hemisphere hemisphere)
    {
        var year = new GrowthYear(date.Year, hemisphere);
        if (date < year.Turn)
            return year.Previous;
        return date >= year.Next.Turn ? year.Next : year;
    }

    /// <summary>The same day of another growth year; 29 February becomes 28 February where there is none.</summary>
    public LocalDate SameDayIn(LocalDate date, GrowthYear other)
    {
        var year = date.Year + (other.Year - Year);
        return new LocalDate(year, date.Month, Math.Min(date.Day, CalendarSystem.Iso.GetDaysInMonth(year, date.Month)));
    }

    /// <summary><see cref="SameDayIn"/> as axis days.</summary>
    public int DayIn(int day, GrowthYear other) => day < (North ? NorthernLeapDay : SouthernLeapDay) || HasLeapDay == other.HasLeapDay
        ? day
        : HasLeapDay ? day - 1 : day + 1;
}
