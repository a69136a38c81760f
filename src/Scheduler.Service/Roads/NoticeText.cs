using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Feeds;

namespace Scheduler.Service.Roads;

/// <summary>Notices in one line each.</summary>
internal static class NoticeText
{
    private static readonly LocalDatePattern Day = LocalDatePattern.CreateWithInvariantCulture("d MMMM");
    private static readonly LocalDatePattern WeekDay = LocalDatePattern.CreateWithInvariantCulture("dddd d MMMM");

    /// <summary>Work, tree and when: "Pinch window opens: Old maple, likely 12 April".</summary>
    public static string Line(ParcelItem item, LocalDate today) =>
        PlainText.Line($"{item.Work.Title}: {item.Window.Body.TreeName}, {When(item, today)}");

    public static string When(ParcelItem item, LocalDate today) => item.Job.Kind switch
    {
        NoticeKind.Opening when PromiseWindows.IsPromise(item.Window.Key) => item.Due > today ? $"due {On(item.Due, today)}" : "due now",
        NoticeKind.Opening => item.Due > today ? $"likely {On(item.Due, today)}" : $"open since {On(item.Due, today)}",
        NoticeKind.Closing => $"closes {On(item.Due, today)} and is not done",
        NoticeKind.Held when item.Work.HeldUntil is { } until => $"on hold until {On(until, today)}",
        NoticeKind.Held => "on hold for as far as the forecast reaches",
        NoticeKind.Protection when item.IsUrgent => item.Due < today ? "now, before dawn" : "tonight",
        NoticeKind.Protection => item.Due > today ? $"from {On(item.Due, today)}" : "now",
        NoticeKind.Planned when item.Planned is { } visit => $"planned for {On(item.Due, today)}, about {visit.Minutes} minutes",
        NoticeKind.Planned => $"planned for {On(item.Due, today)}",
        _ => throw new ArgumentOutOfRangeException(nameof(item), item.Job.Kind, "No such kind of notice.")
    };

    public static string Date(LocalDate date) => WeekDay.Format(date);

    private static string On(LocalDate date, LocalDate today) =>
        date == today ? "today" : date == today.PlusDays(1) ? "tomorrow" : Day.Format(date);
}
