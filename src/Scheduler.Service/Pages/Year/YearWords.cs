using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Pages.Frame;

namespace Scheduler.Service.Pages.Year;

/// <summary>A window's dates and state in words.</summary>
internal static class YearWords
{
    public static string When(PageContext page, YearRow row, LocalDate today) => row.Closes is { } closes
        ? page["Plan.Span", page.Locale.Day(row.Opens, today), page.Locale.Day(closes, today)]
        : page["Window.Opens", page.Locale.Day(row.Opens, today)];

    public static string State(PageContext page, YearRow row) => page["Year.State." + Ids.Of(row.Window.State)];
}
