using NodaTime;

namespace Scheduler.Service.Roads;

/// <summary>Why the owner should hear of a job.</summary>
public enum NoticeKind
{
    /// <summary>A window opens, or a promise of earlier work falls due.</summary>
    Opening,

    /// <summary>An open window closes soon and the work is not done.</summary>
    Closing,

    /// <summary>The weather holds back work that was right to do.</summary>
    Held,

    /// <summary>Frost tonight, heat ahead, or the move into or out of winter storage.</summary>
    Protection,

    /// <summary>A visit stands in the plan.</summary>
    Planned
}

/// <summary>What makes it the same job when its date moves. A visit counts from 1; 0 where it is the window itself.</summary>
public sealed record NoticeJob(Guid WindowId, NoticeKind Kind, int Visit);

/// <summary>Something the owner should hear, found in what is announced and planned.</summary>
/// <param name="Due">The day on which it matters.</param>
/// <param name="IsUrgent">It cannot wait for tomorrow: frost tonight for a tree that it can hurt. Each such night is a job of its own.</param>
public sealed record NoticeDue(NoticeJob Job, LocalDate Due, bool IsUrgent);

/// <summary>A notice as it is kept.</summary>
/// <param name="IsStanding">False once its window is off or done, or its day is over.</param>
/// <param name="IsTold">At least one road has told it.</param>
public sealed record StoredNotice(Guid Id, NoticeJob Job, LocalDate Due, bool IsUrgent, bool IsStanding, bool IsTold);
