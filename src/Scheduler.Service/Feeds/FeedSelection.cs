using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Feeds;

/// <summary>Which windows a feed shows on a given day: the past month and the coming year and a half.</summary>
internal static class FeedSelection
{
    public const int PastDays = 30;
    private const int ComingMonths = 18;

    public static bool Shows(StoredWindow window, Instant asOf)
    {
        if (window.Body.Window.Opens.Likely is not { } opens)
            return false;
        if (window.WithdrawnAt is { } withdrawnAt && asOf >= withdrawnAt + FeedLedger.KeptAfterCancelling)
            return false;
        // A withdrawn window is told of exactly where it was shown before, so its own dates are judged as of that day.
        var day = (window.State is WindowState.Withdrawn ? window.WithdrawnAt ?? asOf : asOf).InUtc().Date;
        return IsNear(opens, LastDay(window.Body.Window, opens), day);
    }

    /// <summary>Whether a feed of that day reaches as far.</summary>
    public static bool IsNear(LocalDate first, LocalDate last, LocalDate day) => last >= day.PlusDays(-PastDays) && first <= day.PlusMonths(ComingMonths);

    /// <summary>The last day of the event: the likely close, or the opening day while no close is in sight before it.</summary>
    public static LocalDate LastDay(WorkWindow window, LocalDate opens) =>
        window.Closes.Likely is { } closes && closes > opens ? closes : opens;
}
