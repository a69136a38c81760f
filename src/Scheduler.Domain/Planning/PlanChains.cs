namespace Scheduler.Domain.Planning;

/// <summary>Makes room for a job by moving one or two others aside, or by giving up less worthy ones.</summary>
internal static class PlanChains
{
    private const int MostExchanges = 400;

    /// <summary>Moves one job off a day, or two in a row, so that the job fits. Nothing is given up.</summary>
    public static bool TryMakeRoom(PlanBoard board, int job) => MoveOne(board, job) || MoveSeveral(board, job) || Swap(board, job) || MoveTwo(board, job);

    /// <summary>
    /// Gives up placed jobs for an unplaced one that is worth more, as long as that gains. Jobs kept from the plan before are
    /// given up only if at least twice their worth is gained: a plan that flickers is worth less.
    /// </summary>
    public static void Exchange(PlanBoard board, HashSet<int> kept)
    {
        var waiting = new PriorityQueue<int, double>();
        for (var job = 0; job < board.Jobs.Count; job++)
        {
            if (board.DayOf(job) < 0)
                waiting.Enqueue(job, -board.Jobs[job].Worth);
        }
        for (var turn = 0; turn < MostExchanges && waiting.TryDequeue(out var job, out _); turn++)
        {
            if (board.TryPlace(job) || TryMakeRoom(board, job))
                continue;
            foreach (var given in GiveUp(board, job, kept))
            {
                kept.Remove(given);
                if (!board.TryPlace(given) && !TryMakeRoom(board, given))
                    waiting.Enqueue(given, -board.Jobs[given].Worth);
            }
        }
    }

    private static bool MoveOne(PlanBoard board, int job)
    {
        foreach (var day in board.Jobs[job].Places)
        {
            foreach (var other in board.On(day))
            {
                if (board.Fits(job, day, other) && OtherDay(board, other, day) is var free and >= 0)
                {
                    board.Move(other, free);
                    board.Put(job, day);
                    return true;
                }
            }
        }
        return false;
    }

    // Clears a day of what can go elsewhere, the longest first, until the job fits; all goes back if it never does.
    private static bool MoveSeveral(PlanBoard board, int job)
    {
        foreach (var day in board.Jobs[job].Places)
        {
            var moved = new List<int>();
            foreach (var other in board.On(day).OrderByDescending(other => board.Jobs[other].Minutes).ToArray())
            {
                if (OtherDay(board, other, day) is not (var free and >= 0))
                    continue;
                board.Move(other, free);
                moved.Add(other);
                if (board.Fits(job, day))
                {
                    board.Put(job, day);
                    return true;
                }
            }
            foreach (var other in moved)
                board.Move(other, day);
        }
        return false;
    }

    // A longer job goes to where a shorter one was, the shorter comes here: the room of two days is pooled.
    private static bool Swap(PlanBoard board, int job)
    {
        foreach (var day in board.Jobs[job].Places)
        {
            var missing = board.Jobs[job].Minutes - board.Room(day);
            foreach (var other in board.On(day).ToArray())
            {
                foreach (var elsewhere in board.Jobs[other].Places)
                {
                    if (elsewhere != day && SwapWith(board, job, day, other, elsewhere, missing))
                        return true;
                }
            }
        }
        return false;
    }

    private static bool SwapWith(PlanBoard board, int job, int day, int other, int elsewhere, int missing)
    {
        foreach (var back in board.On(elsewhere))
        {
            var gained = board.Jobs[other].Minutes - board.Jobs[back].Minutes;
            if (gained < missing || gained > board.Room(elsewhere) || !board.Allows(back, day) || !board.Fits(other, elsewhere, back))
                continue;
            board.Take(other);
            board.Take(back);
            if (board.Fits(other, elsewhere) && board.Fits(back, day))
            {
                board.Put(other, elsewhere);
                board.Put(back, day);
                if (board.Fits(job, day))
                {
                    board.Put(job, day);
                    return true;
                }
                board.Take(other);
                board.Take(back);
            }
            board.Put(other, day);
            board.Put(back, elsewhere);
            return false;
        }
        return false;
    }

    private static bool MoveTwo(PlanBoard board, int job)
    {
        foreach (var day in board.Jobs[job].Places)
        {
            foreach (var other in board.On(day))
            {
                if (!board.Fits(job, day, other))
                    continue;
                foreach (var elsewhere in board.Jobs[other].Places)
                {
                    if (elsewhere == day)
                        continue;
                    foreach (var third in board.On(elsewhere))
                    {
                        if (!board.Fits(other, elsewhere, third) || OtherDay(board, third, elsewhere, day) is not (var free and >= 0))
                            continue;
                        board.Move(third, free);
                        board.Move(other, elsewhere);
                        board.Put(job, day);
                        return true;
                    }
                }
            }
        }
        return false;
    }

    private static int OtherDay(PlanBoard board, int job, int not, int notEither = -1)
    {
        foreach (var day in board.Jobs[job].Places)
        {
            if (day != not && day != notEither && board.Fits(job, day))
                return day;
        }
        return -1;
    }

    // The cheapest one or two jobs of a day whose place the job could take.
    private static int[] GiveUp(PlanBoard board, int job, HashSet<int> kept)
    {
        var worth = board.Jobs[job].Worth;
        (double Cost, int First, int Second, int Day) best = (worth - 1e-9, -1, -1, -1);
        foreach (var day in board.Jobs[job].Places)
        {
            var on = board.On(day);
            for (var i = 0; i < on.Count; i++)
            {
                var cost = Cost(board, on[i], kept);
                if (cost >= best.Cost)
                    continue;
                if (board.Fits(job, day, on[i]))
                {
                    best = (cost, on[i], -1, day);
                    continue;
                }
                for (var k = i + 1; k < on.Count; k++)
                {
                    var both = cost + Cost(board, on[k], kept);
                    if (both < best.Cost && board.Fits(job, day, on[i], on[k]))
                        best = (both, on[i], on[k], day);
                }
            }
        }
        if (best.Day < 0)
            return [];
        int[] given = best.Second < 0 ? [best.First] : [best.First, best.Second];
        foreach (var one in given)
            board.Take(one);
        board.Put(job, best.Day);
        return given;
    }

    private static double Cost(PlanBoard board, int job, HashSet<int> kept) => board.Jobs[job].Worth * (kept.Contains(job) ? 2 : 1);
}
