namespace Scheduler.Domain.Planning;

/// <summary>
/// Finds room for a job: on a day with room left, else by clearing a day of what can go elsewhere or is worth less, and finding room
/// for that in turn (an ejection chain). What does not gain is taken back.
/// </summary>
internal sealed class PlanSearch
{
    private const double Nothing = 1e-9;
    // Moving a job costs a little, so that of two ways the one with fewer moves is taken.
    private const double MoveCost = 0.02;
    private const int Deepest = 3;
    private readonly PlanBoard _board;
    private readonly DayPrices _prices;
    private readonly bool[] _isKept;
    private readonly int[] _lockedAt;
    private readonly DayClearing[] _clearings;
    private int _attempt;

    public PlanSearch(PlanBoard board, DayPrices prices)
    {
        (_board, _prices) = (board, prices);
        _isKept = new bool[board.Jobs.Length];
        _lockedAt = new int[board.Jobs.Length];
        _clearings = new DayClearing[Deepest];
        for (var depth = 0; depth < Deepest; depth++)
            _clearings[depth] = new DayClearing(board);
    }

    /// <summary>From now on the job is given up only for at least twice its worth: a plan that flickers is worth less.</summary>
    public void Keep(int job) => _isKept[job] = true;

    /// <summary>On the day whose price is least; among equals the earliest.</summary>
    public bool TryPlace(int job, int not = -1)
    {
        var (best, least) = (-1, double.MaxValue);
        foreach (var day in _board.Places[job])
        {
            if (day == not || !_board.Fits(job, day))
                continue;
            var price = _prices.Of(_board, job, day);
            if (price < least - Nothing)
                (best, least) = (day, price);
        }
        if (best < 0)
            return false;
        _board.Put(job, best);
        return true;
    }

    /// <summary>Lets an unplaced job in if that gains worth; else nothing has changed.</summary>
    public bool TryImprove(int job)
    {
        _attempt++;
        var mark = _board.Mark;
        if (TryPlace(job))
            return true;
        if (Enter(job, _board.Worths[job], 0) > Nothing)
            return true;
        _board.BackTo(mark);
        return false;
    }

    // What is gained by letting the job in and finding room for what it displaced; at most the budget may be given up on the way.
    private double Enter(int job, double budget, int depth)
    {
        if (depth == Deepest)
            return -1;
        _lockedAt[job] = _attempt;
        var clearing = _clearings[depth];
        var (bestDay, leastCost) = (-1, budget - Nothing);
        foreach (var day in _board.Places[job])
        {
            Weigh(clearing, day, depth);
            var cost = clearing.LeastCost(job, day, leastCost);
            if (cost < leastCost)
                (bestDay, leastCost) = (day, cost);
        }
        if (bestDay < 0)
            return -1;
        Weigh(clearing, bestDay, depth);
        clearing.LeastCost(job, bestDay, double.MaxValue);
        var given = clearing.Chosen(job, bestDay);
        foreach (var other in given)
            _board.Take(other);
        _board.Put(job, bestDay);
        var gain = _board.Worths[job];
        foreach (var other in given)
        {
            if (TryPlace(other, bestDay))
                continue;
            var mark = _board.Mark;
            var more = Enter(other, Value(other), depth + 1);
            if (more > Nothing)
            {
                gain += more - Value(other);
                continue;
            }
            _board.BackTo(mark);
            gain -= Value(other);
        }
        return gain;
    }

    // What each job of the day would cost if it had to leave.
    private void Weigh(DayClearing clearing, int day, int depth)
    {
        var on = _board.On(day);
        for (var i = 0; i < on.Length; i++)
        {
            var job = on[i];
            // What stood there before moves aside only into free room: no unrelated work is shifted down a chain.
            clearing.Costs[i] = _lockedAt[job] == _attempt || depth > 0 && _isKept[job] ? double.PositiveInfinity
                : FitsElsewhere(job, day) ? MoveCost * Value(job)
                : Value(job) * (depth + 1 < Deepest ? 0.9 : 1);
        }
    }

    private bool FitsElsewhere(int job, int day)
    {
        foreach (var other in _board.Places[job])
        {
            if (other != day && _board.Fits(job, other))
                return true;
        }
        return false;
    }

    private double Value(int job) => _board.Worths[job] * (_isKept[job] ? 2 : 1);
}
