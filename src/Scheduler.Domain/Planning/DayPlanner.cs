namespace Scheduler.Domain.Planning;

/// <summary>
/// Puts jobs into days so that as much worth as possible is done, without more minutes than a day has. The exact problem
/// (a generalized assignment problem) is hard; this is insertion by worth a minute, then chains that move one or two jobs
/// aside, then exchanges for less worthy jobs. Tests compare it with an exact solver's bound.
/// What stood in the plan before stays where it is unless its day no longer takes it or a job that would else be lost needs the room.
/// </summary>
public static class DayPlanner
{
    /// <param name="jobs">Jobs with distinct ids.</param>
    /// <param name="minutesFree">Free minutes of each day.</param>
    /// <param name="before">Places of an earlier plan by job id.</param>
    public static PlanOutcome Plan(IReadOnlyList<PlanJob> jobs, IReadOnlyList<int> minutesFree, IReadOnlyDictionary<string, int>? before = null)
    {
        ArgumentNullException.ThrowIfNull(jobs);
        ArgumentNullException.ThrowIfNull(minutesFree);
        // No one order is best for every garden: the plan worth most is taken, the first among equals.
        var best = Run(jobs, minutesFree, before, Orders[0]);
        for (var order = 1; order < Orders.Length && best.Worth < best.Wanted; order++)
        {
            var other = Run(jobs, minutesFree, before, Orders[order]);
            if (other.Worth > best.Worth + 1e-9)
                best = other;
        }
        return Outcome(best);
    }

    // Most worth a minute; least choice of days; longest.
    private static readonly Func<PlanJob, double>[] Orders =
    [
        job => -job.Worth / job.Minutes,
        job => job.Places.Length,
        job => -job.Minutes
    ];

    private static PlanBoard Run(
        IReadOnlyList<PlanJob> jobs, IReadOnlyList<int> minutesFree, IReadOnlyDictionary<string, int>? before, Func<PlanJob, double> order)
    {
        var board = new PlanBoard(jobs, minutesFree);
        var turns = Enumerable.Range(0, jobs.Count)
            .OrderBy(job => order(jobs[job])).ThenBy(job => jobs[job].Places.Length).ThenBy(job => jobs[job].Id, StringComparer.Ordinal).ToArray();
        var kept = before is null ? [] : Keep(board, before, turns);
        foreach (var job in turns)
        {
            if (board.DayOf(job) < 0)
                board.TryPlace(job);
        }
        foreach (var job in turns)
        {
            if (board.DayOf(job) < 0)
                PlanChains.TryMakeRoom(board, job);
        }
        PlanChains.Exchange(board, kept);
        return board;
    }

    private static HashSet<int> Keep(PlanBoard board, IReadOnlyDictionary<string, int> before, int[] turns)
    {
        var kept = new HashSet<int>();
        foreach (var job in turns)
        {
            if (before.TryGetValue(board.Jobs[job].Id, out var day) && board.Allows(job, day) && board.Fits(job, day))
            {
                board.Put(job, day);
                kept.Add(job);
            }
        }
        return kept;
    }

    private static PlanOutcome Outcome(PlanBoard board)
    {
        var days = new Dictionary<string, int>(board.Jobs.Count);
        var unplaced = new List<Unplaced>();
        for (var job = 0; job < board.Jobs.Count; job++)
        {
            if (board.DayOf(job) is var day and >= 0)
                days[board.Jobs[job].Id] = day;
            else
                unplaced.Add(board.WhyNot(job));
        }
        return new PlanOutcome(days, unplaced);
    }
}
