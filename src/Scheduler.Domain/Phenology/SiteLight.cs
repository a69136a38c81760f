using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// The <see cref="SeasonLight"/> of one latitude, growth year by growth year. The day of the year is all that counts, so years with the
/// same leap days share theirs.
/// </summary>
/// <remarks>Not for use by several threads at once.</remarks>
internal sealed class SiteLight(double latitude)
{
    private readonly Dictionary<(Hemisphere, bool, bool), SeasonLight> _ofLeapDays = [];

    public SeasonLight Of(GrowthYear year)
    {
        var key = (year.Hemisphere, IsLeap(year.ChillStart), IsLeap(year.AxisEnd));
        return _ofLeapDays.TryGetValue(key, out var known) ? known : _ofLeapDays[key] = new SeasonLight(latitude, year);
    }

    private static bool IsLeap(LocalDate date) => CalendarSystem.Iso.IsLeapYear(date.Year);
}
