namespace Scheduler.Domain.Planning;

/// <summary>What work does to a tree within one day: root work never shares a day with leaf work on the same tree (common practice).</summary>
public enum WorkKind { Other, Roots, Leaves }

/// <summary>One visit to one tree that wants a place in the owner's days.</summary>
public sealed record PlanJob
{
    /// <param name="id">Names the visit; the same from one planning to the next.</param>
    /// <param name="minutes">Time it takes [min], above 0.</param>
    /// <param name="worth">How much is lost if it is not done, above 0; only its proportion to other jobs counts.</param>
    /// <param name="days">Days on which it may be done, as places in the list of working days, ascending. Weather holds are left out of it.</param>
    public PlanJob(string id, string treeId, int minutes, double worth, IReadOnlyList<int> days)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(minutes);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(worth);
        ArgumentNullException.ThrowIfNull(days);
        (Id, TreeId, Minutes, Worth, Days) = (id, treeId, minutes, worth, days);
        Places = [.. days];
    }

    public string Id { get; }
    public string TreeId { get; }
    public int Minutes { get; }
    public double Worth { get; }
    public IReadOnlyList<int> Days { get; }
    internal int[] Places { get; }
    /// <summary>Visits of one window never share a day; null: it has only this one.</summary>
    public string? WindowId { get; init; }
    public WorkKind Kind { get; init; }
    /// <summary>Heavy work: at most one such job a day, for tired hands slip (common practice).</summary>
    public bool IsHeavy { get; init; }
}

/// <summary>Where each job went, and those that found no place.</summary>
/// <param name="DayOf">Place in the list of working days by job id.</param>
/// <param name="Unplaced">In the order of the jobs.</param>
public sealed record PlanOutcome(IReadOnlyDictionary<string, int> DayOf, IReadOnlyList<Unplaced> Unplaced);

/// <summary>A job without a place.</summary>
/// <param name="Cause">What stands in its way.</param>
/// <param name="Day">The day that comes nearest to having room; null when none is free at all.</param>
/// <param name="MissingMinutes">How much longer that day would have to be [min].</param>
public sealed record Unplaced(PlanJob Job, UnplacedCause Cause, int? Day, int MissingMinutes);

/// <summary>Why a job found no place: no free day within its days, too little time on them, other work in the way, or another visit of the same work.</summary>
public enum UnplacedCause { NoFreeDay, TooLittleTime, HeavyWorkThatDay, ConflictThatDay, OtherVisitThatDay }
