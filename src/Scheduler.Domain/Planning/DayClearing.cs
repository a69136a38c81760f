namespace Scheduler.Domain.Planning;

/// <summary>
/// The cheapest jobs to take off a day so that another fits: a covering knapsack, solved exactly by dynamic programming over the
/// missing minutes.
/// </summary>
internal sealed class DayClearing(PlanBoard board)
{
    private double[] _cost = [];
    private ulong[] _set = [];
    private readonly List<int> _chosen = [];
    private ulong _best;

    // More jobs on one day than bits in the set: the rest simply stay.
    private const int Most = 64;

    /// <summary>Cost of taking off each job of the day, in the day's order; set before asking.</summary>
    public double[] Costs { get; } = new double[board.Jobs.Length];

    /// <summary>Infinite where it cannot be done below the bound.</summary>
    public double LeastCost(int job, int day, double bound)
    {
        var on = board.On(day);
        var (count, missing, forcedCost, forced) = (Math.Min(on.Length, Most), board.Minutes(job) - board.Room(day), 0.0, 0UL);
        for (var i = 0; i < on.Length; i++)
        {
            if (!board.Excludes(job, on[i]))
                continue;
            if (i >= Most)
                return double.PositiveInfinity;
            forced |= 1UL << i;
            forcedCost += Costs[i];
            missing -= board.Minutes(on[i]);
        }
        _best = forced;
        if (missing <= 0 || forcedCost >= bound)
            return forcedCost;
        if (_cost.Length <= missing)
            (_cost, _set) = (new double[missing + 1], new ulong[missing + 1]);
        Array.Fill(_cost, double.PositiveInfinity, 1, missing);
        (_cost[0], _set[0]) = (0, 0);
        for (var i = 0; i < count; i++)
        {
            if ((forced >> i & 1) != 0 || forcedCost + Costs[i] >= bound)
                continue;
            var (minutes, cost) = (board.Minutes(on[i]), Costs[i]);
            for (var need = missing; need > 0; need--)
            {
                var rest = Math.Max(0, need - minutes);
                if (_cost[rest] + cost < _cost[need])
                    (_cost[need], _set[need]) = (_cost[rest] + cost, _set[rest] | 1UL << i);
            }
        }
        _best |= _set[missing];
        return forcedCost + _cost[missing];
    }

    /// <summary>The jobs of the last question.</summary>
    public int[] Chosen(int job, int day)
    {
        var on = board.On(day);
        _chosen.Clear();
        for (var i = 0; i < Math.Min(on.Length, Most); i++)
        {
            if ((_best >> i & 1) != 0)
                _chosen.Add(on[i]);
        }
        _chosen.Sort((one, other) => board.Minutes(other).CompareTo(board.Minutes(one)));
        return [.. _chosen];
    }
}
