using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Feeds;

/// <summary>Which windows a feed shows on a given day: the past month and the coming year and a half.</summary>
internal static class FeedSelection
{
    private const int PastDays = 30;
    private const int ComingMonths = 18;

    /// <summary>How long a withdrawn window stays, so that calendars that poll seldom still learn of it.</summary>
    private static readonly Duration KeptAfterWithdrawal = Duration.FromDays(30);

    public static bool Shows(StoredWindow window, Instant asOf)
    {
        if (window.Body.Window.Opens.Likely is not { } opens)
            return false;
        if (window.WithdrawnAt is { } withdrawnAt && asOf >= withdrawnAt + KeptAfterWithdrawal)
            return false;
        // A withdrawn window is told of exactly where it was shown before, so its own dates are judged as of that day.
        var day = (window.State is WindowState.Withdrawn ? window.WithdrawnAt ?? asOf : asOf).InUtc().Date;
        return LastDay(window.Body.Window, opens) >= day.PlusDays(-PastDays) && opens <= day.PlusMonths(ComingMonths);
    }

    /// <summary>The last day of the event: the likely close, or the opening day while no close is in sight before it.</summary>
    public static LocalDate LastDay(WorkWindow window, LocalDate opens) =>
        window.Closes.Likely is { } closes && closes > opens ? closes : opens;
}
