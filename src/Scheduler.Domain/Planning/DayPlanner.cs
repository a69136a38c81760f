namespace Scheduler.Domain.Planning;

/// <summary>
/// Puts jobs into days so that as much worth as possible is done, without more minutes than a day has. The exact problem
/// (a generalized assignment problem) is hard; this is insertion by worth a minute at the days' prices, then ejection chains until
/// no job left out gains. Tests compare it with an exact solver's bound.
/// What stood in the plan before stays where it is unless its day no longer takes it or a job that would else be lost needs the room.
/// </summary>
public static class DayPlanner
{
    private const int MostRounds = 8;
    private const double Nothing = 1e-9;

    /// <param name="jobs">Jobs with distinct ids.</param>
    /// <param name="minutesFree">Free minutes of each day.</param>
    /// <param name="before">Places of an earlier plan by job id.</param>
    public static PlanOutcome Plan(IReadOnlyList<PlanJob> jobs, IReadOnlyList<int> minutesFree, IReadOnlyDictionary<string, int>? before = null)
    {
        ArgumentNullException.ThrowIfNull(jobs);
        ArgumentNullException.ThrowIfNull(minutesFree);
        var board = new PlanBoard(jobs, minutesFree);
        var search = new PlanSearch(board, new DayPrices(board));
        var turns = Turns(board);
        var kept = before is null ? [] : Keep(board, search, before, turns);
        foreach (var job in turns)
        {
            if (board.DayOf(job) < 0)
                search.TryPlace(job);
        }
        for (var round = 0; round < MostRounds && Improve(board, search, turns); round++)
        {
        }
        GoBack(board, kept);
        return Outcome(board);
    }

    private static bool Improve(PlanBoard board, PlanSearch search, int[] turns)
    {
        var isBetter = false;
        foreach (var job in turns)
            isBetter |= board.DayOf(job) < 0 && search.TryImprove(job);
        return isBetter;
    }

    // Most worth a minute first, then least choice of days; the id decides among equals, so that the order of the list does not.
    private static int[] Turns(PlanBoard board)
    {
        var turns = new int[board.Jobs.Length];
        for (var job = 0; job < turns.Length; job++)
            turns[job] = job;
        Array.Sort(turns, (one, other) =>
        {
            var order = (board.Worths[other] / board.Minutes(other)).CompareTo(board.Worths[one] / board.Minutes(one));
            if (order == 0)
                order = board.Places[one].Length.CompareTo(board.Places[other].Length);
            return order != 0 ? order : string.CompareOrdinal(board.Jobs[one].Id, board.Jobs[other].Id);
        });
        return turns;
    }

    private static List<(int Job, int Day)> Keep(PlanBoard board, PlanSearch search, IReadOnlyDictionary<string, int> before, int[] turns)
    {
        var kept = new List<(int, int)>();
        foreach (var job in turns)
        {
            if (!before.TryGetValue(board.Jobs[job].Id, out var day) || !board.Allows(job, day) || !board.Fits(job, day))
                continue;
            board.Put(job, day);
            search.Keep(job);
            kept.Add((job, day));
        }
        return kept;
    }

    // A job that was moved aside and whose old place is free after all goes back: nothing moves without need.
    private static void GoBack(PlanBoard board, List<(int Job, int Day)> kept)
    {
        for (var isMoving = true; isMoving;)
        {
            isMoving = false;
            foreach (var (job, day) in kept)
            {
                if (board.DayOf(job) == day || !board.Fits(job, day))
                    continue;
                if (board.DayOf(job) >= 0)
                    board.Take(job);
                board.Put(job, day);
                isMoving = true;
            }
        }
    }

    private static PlanOutcome Outcome(PlanBoard board)
    {
        var days = new Dictionary<string, int>(board.Jobs.Length);
        var unplaced = new List<Unplaced>();
        for (var job = 0; job < board.Jobs.Length; job++)
        {
            if (board.DayOf(job) is var day and >= 0)
                days[board.Jobs[job].Id] = day;
            else
                unplaced.Add(WhyNot(board, job));
        }
        return new PlanOutcome(days, unplaced);
    }

    private static Unplaced WhyNot(PlanBoard board, int job)
    {
        var (one, nearest) = (board.Jobs[job], -1);
        foreach (var day in one.Places)
        {
            if (day < 0 || day >= board.Days || board.Free(day) <= 0)
                continue;
            if (board.Room(day) >= one.Minutes)
                return new Unplaced(one, CauseOn(board, job, day), day, 0);
            if (nearest < 0 || board.Room(day) > board.Room(nearest))
                nearest = day;
        }
        return nearest < 0
            ? new Unplaced(one, UnplacedCause.NoFreeDay, null, one.Minutes)
            : new Unplaced(one, UnplacedCause.TooLittleTime, nearest, one.Minutes - board.Room(nearest));
    }

    private static UnplacedCause CauseOn(PlanBoard board, int job, int day) =>
        board.IsVisited(job, day) ? UnplacedCause.OtherVisitThatDay
        : board.Conflicts(job, day) ? UnplacedCause.ConflictThatDay : UnplacedCause.HeavyWorkThatDay;
}
