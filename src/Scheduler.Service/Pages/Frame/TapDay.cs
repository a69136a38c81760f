using NodaTime;
using NodaTime.Text;

namespace Scheduler.Service.Pages.Frame;

/// <summary>The day of a tap: today, unless it waited for the network and says on which day it was made.</summary>
public static class TapDay
{
    public const string Field = "on";

    /// <summary>Longer than any holiday; older claims count for today.</summary>
    private const int MostDays = 60;

    public static LocalDate Of(FormBody form, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(form);
        return form[Field] is { } text && LocalDatePattern.Iso.Parse(text).TryGetValue(default, out var day) && day <= today && day >= today.PlusDays(-MostDays)
            ? day
            : today;
    }
}
