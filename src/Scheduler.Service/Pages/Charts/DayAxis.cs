using System.Globalization;
using NodaTime;

namespace Scheduler.Service.Pages.Charts;

/// <summary>Days from left to right across a drawing, as shares of its width [%], so that one drawing fits every screen and its letters keep their size.</summary>
/// <param name="First">At the left edge.</param>
/// <param name="Last">At the right edge, with its whole day.</param>
public sealed record DayAxis(LocalDate First, LocalDate Last)
{
    public int Days => Period.DaysBetween(First, Last) + 1;

    public bool Holds(LocalDate date) => date >= First && date <= Last;

    /// <summary>Whether any day between two dates lies on the axis.</summary>
    public bool Touches(LocalDate from, LocalDate to) => from <= Last && to >= First;

    /// <summary>Left edge of a day; days beyond an end stand at that end.</summary>
    public string At(LocalDate date) => Percent(Place(date));

    /// <summary>Width from one day to another, both included.</summary>
    public string Wide(LocalDate from, LocalDate to) => Percent(Place(to.PlusDays(1)) - Place(from));

    /// <summary>First days of the months on the axis.</summary>
    public IEnumerable<LocalDate> Months()
    {
        for (var month = First.Day == 1 ? First : new LocalDate(First.Year, First.Month, 1).PlusMonths(1); month <= Last; month = month.PlusMonths(1))
            yield return month;
    }

    private double Place(LocalDate date) => Math.Clamp(Period.DaysBetween(First, date) * 100.0 / Days, 0, 100);

    private static string Percent(double share) => share.ToString("0.##", CultureInfo.InvariantCulture) + "%";
}
