using NodaTime;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Accounts;
using Scheduler.Service.Feeds;

namespace Scheduler.Service.Roads;

/// <summary>Notices in one line each.</summary>
internal static class NoticeText
{
    /// <summary>Work, tree and when: "Pinch window opens: Old maple, likely 12 April".</summary>
    public static string Line(ParcelItem item, LocalDate today, OwnerWords words) =>
        PlainText.Line($"{item.Work.Title}: {item.Window.Body.TreeName}, {When(item, today, words)}");

    public static string When(ParcelItem item, LocalDate today, OwnerWords words) => item.Job.Kind switch
    {
        NoticeKind.Opening when PromiseWindows.IsPromise(item.Window.Key) => item.Due > today ? words["Notice.Due", On(item.Due, today, words)] : words["Notice.DueNow"],
        NoticeKind.Opening => words[item.Due > today ? "Notice.Likely" : "Notice.OpenSince", On(item.Due, today, words)],
        NoticeKind.Closing => words["Notice.Closes", On(item.Due, today, words)],
        NoticeKind.Held when item.Work.HeldUntil is { } until => words["Notice.HeldUntil", On(until, today, words)],
        NoticeKind.Held => words["Notice.Held"],
        NoticeKind.Protection when item.IsUrgent => words[item.Due < today ? "Notice.BeforeDawn" : "Notice.Tonight"],
        NoticeKind.Protection => item.Due > today ? words["Notice.From", On(item.Due, today, words)] : words["Notice.Now"],
        NoticeKind.Planned when item.Planned is { } visit => words["Notice.PlannedMinutes", On(item.Due, today, words), visit.Minutes],
        NoticeKind.Planned => words["Notice.Planned", On(item.Due, today, words)],
        _ => throw new ArgumentOutOfRangeException(nameof(item), item.Job.Kind, "No such kind of notice.")
    };

    private static string On(LocalDate date, LocalDate today, OwnerWords words) =>
        date == today ? words["Notice.Today"] : date == today.PlusDays(1) ? words["Notice.Tomorrow"] : words.Day(date);
}
