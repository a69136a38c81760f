using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Roads;

/// <summary>
/// Finds what the owner should hear in the announced windows and the plan of one day. Pure, and it looks at what is rather than at
/// what changed, so that a run that was cut short is made good by the next one.
/// </summary>
public static class NoticeFinder
{
    /// <summary>How far ahead notices are raised [days]; a weekly digest needs its whole week and a day. Roads tell later: see <see cref="Lead"/>.</summary>
    public const int DaysAhead = 8;

    /// <summary>A window shorter than this [days] is not told again when it closes.</summary>
    private const int ShortestWithClosing = 4;

    private const string Frost = "frost-protection";
    private const string Heat = "heat-shade";
    private const string Winter = "winter-storage";

    /// <param name="isNightOn">The night that began yesterday is still on.</param>
    public static IReadOnlyList<NoticeDue> Find(IReadOnlyList<StoredWindow> windows, StoredPlan? plan, LocalDate today, bool isNightOn = false)
    {
        ArgumentNullException.ThrowIfNull(windows);
        var pending = windows.Where(IsPending).ToDictionary(window => window.Id);
        var visits = (plan?.Visits ?? []).Where(visit => visit.Date >= today && visit.Date <= today.PlusDays(DaysAhead) && pending.ContainsKey(visit.WindowId));
        return
        [
            .. pending.Values.OrderBy(window => window.Id).SelectMany(window => Of(window, today, isNightOn)),
            .. visits.Select(visit => new NoticeDue(new NoticeJob(visit.WindowId, NoticeKind.Planned, visit.Visit), visit.Date!.Value, false))
        ];
    }

    /// <summary>Work in it may still come.</summary>
    public static bool IsPending(StoredWindow window)
    {
        ArgumentNullException.ThrowIfNull(window);
        return window.State is WindowState.Forecast or WindowState.Open or WindowState.Held;
    }

    public static bool IsFrost(StoredWindow window)
    {
        ArgumentNullException.ThrowIfNull(window);
        return window.Key.Technique == Frost;
    }

    private static IEnumerable<NoticeDue> Of(StoredWindow stored, LocalDate today, bool isNightOn)
    {
        var window = stored.Body.Window;
        if (window.Opens.Likely is not { } opens)
            return [];
        return stored.Key.Technique switch
        {
            Frost => Nights(stored, opens, today, isNightOn),
            Heat or Winter => Once(NoticeKind.Protection, opens <= today.PlusDays(DaysAhead), opens),
            _ =>
            [
                .. Once(NoticeKind.Opening, opens <= today.PlusDays(DaysAhead), opens),
                .. Once(NoticeKind.Closing, ClosesSoon(window, opens, today), window.Closes.Likely ?? opens),
                .. Once(NoticeKind.Held, window.State == WindowState.Held && opens <= today, window.HeldUntil ?? today)
            ]
        };

        IEnumerable<NoticeDue> Once(NoticeKind kind, bool isDue, LocalDate due) =>
            isDue ? [new NoticeDue(new NoticeJob(stored.Id, kind, 0), due, false)] : [];
    }

    // A frost window closes on the morning after its last night. Open on that morning, it speaks of the night that is still on; in a run of
    // nights it then speaks of that one and of the next.
    private static IEnumerable<NoticeDue> Nights(StoredWindow stored, LocalDate opens, LocalDate today, bool isNightOn)
    {
        if (stored.State != WindowState.Open || opens > today)
            yield break;
        var closes = stored.Body.Window.Closes.Likely ?? opens.PlusDays(1);
        if (closes == today || isNightOn && opens < today && closes > today)
            yield return Night(today.PlusDays(-1));
        if (closes > today)
            yield return Night(today);

        NoticeDue Night(LocalDate evening) => new(new NoticeJob(stored.Id, NoticeKind.Protection, 0), evening, true);
    }

    private static bool ClosesSoon(WorkWindow window, LocalDate opens, LocalDate today) =>
        window.State == WindowState.Open && !PromiseWindows.IsPromise(window.Key) && window.Closes.Likely is { } closes
        && closes >= today && closes <= today.PlusDays(DaysAhead) && closes >= opens.PlusDays(ShortestWithClosing);
}

/// <summary>How long before its day a road tells a notice.</summary>
internal static class Lead
{
    private const int HeatDays = 1;
    private const int OpeningDays = 2;
    private const int ClosingDays = 3;

    /// <summary>The first day on which it is told. A weekly digest tells its whole week, one in the afternoon the plan of the day after.</summary>
    /// <param name="digest">Null: the road tells each thing by itself.</param>
    public static LocalDate From(NoticeKind kind, LocalDate due, string technique, DigestTimes? digest) => due.PlusDays(-Days(kind, technique, digest));

    private static int Days(NoticeKind kind, string technique, DigestTimes? digest) => (kind, technique, digest?.IsWeekly ?? false) switch
    {
        (NoticeKind.Protection, "heat-shade", _) => HeatDays,
        (NoticeKind.Protection, "frost-protection", _) => 0,
        (_, _, true) => NoticeFinder.DaysAhead,
        (NoticeKind.Opening or NoticeKind.Protection, _, _) => OpeningDays,
        (NoticeKind.Closing, _, _) => ClosingDays,
        // A hold is news at once, however long it lasts.
        (NoticeKind.Held, _, _) => 10_000,
        (NoticeKind.Planned, _, _) when digest is { At.Hour: >= 12 } => 1,
        _ => 0
    };
}
