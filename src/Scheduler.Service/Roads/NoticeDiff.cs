using NodaTime;

namespace Scheduler.Service.Roads;

/// <summary>What becomes of the kept notices.</summary>
/// <param name="Raise">Told for the first time.</param>
/// <param name="Move">Not told by any road yet: they take their new date.</param>
/// <param name="Reopen">Were closed and are due again on the same day: only roads that had not told them do.</param>
/// <param name="Close">No longer true; what is not yet told is dropped.</param>
public sealed record NoticeChanges(
    IReadOnlyList<NoticeDue> Raise, IReadOnlyList<(Guid Id, LocalDate Due)> Move, IReadOnlyList<Guid> Reopen, IReadOnlyList<Guid> Close);

/// <summary>
/// Decides what is news. A job is told once. When its date moves, what was told is not told again, and what still waits takes the
/// new date; it is told a second time only if it was called off in between and comes back for another day. A night of frost is a job of
/// its own, and so is a planned visit whose day went by without the work. Pure: the same inputs give the same changes.
/// </summary>
public static class NoticeDiff
{
    public static NoticeChanges Of(
        IReadOnlyList<StoredNotice> known, IReadOnlyList<NoticeDue> found, IReadOnlySet<Guid> pendingWindows, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(known);
        ArgumentNullException.ThrowIfNull(found);
        ArgumentNullException.ThrowIfNull(pendingWindows);
        var byJob = known.ToLookup(notice => notice.Job);
        var (raise, move, reopen, kept) = (new List<NoticeDue>(), new List<(Guid, LocalDate)>(), new List<Guid>(), new HashSet<Guid>());
        foreach (var due in found)
        {
            var same = byJob[due.Job].FirstOrDefault(notice => notice.Due == due.Due);
            var standing = byJob[due.Job].Where(notice => notice.IsStanding && notice != same).ToList();
            if (same is not { IsStanding: true } && standing.Find(notice => notice.IsTold && IsSameNews(notice, today)) is { } told)
            {
                kept.Add(told.Id);
            }
            else if (same is not null)
            {
                if (!same.IsStanding)
                    reopen.Add(same.Id);
                kept.Add(same.Id);
            }
            else if (standing.Find(notice => !notice.IsTold && !notice.IsUrgent) is { } waiting)
            {
                move.Add((waiting.Id, due.Due));
                kept.Add(waiting.Id);
            }
            else
            {
                raise.Add(due);
            }
        }
        var close = known.Where(notice => notice.IsStanding && !kept.Contains(notice.Id) && !IsOnlyOutOfSight(notice, pendingWindows, today));
        return new NoticeChanges(raise, move, reopen, [.. close.Select(notice => notice.Id)]);
    }

    private static bool IsSameNews(StoredNotice notice, LocalDate today) => notice.Job.Kind switch
    {
        NoticeKind.Planned => notice.Due >= today,
        _ => !notice.IsUrgent
    };

    // Told, then moved so far that it is not found any more: it must not count as new when it comes near again.
    private static bool IsOnlyOutOfSight(StoredNotice notice, IReadOnlySet<Guid> pendingWindows, LocalDate today) =>
        notice.IsTold && !notice.IsUrgent && notice.Job.Kind != NoticeKind.Held
        && pendingWindows.Contains(notice.Job.WindowId) && IsSameNews(notice, today);
}
