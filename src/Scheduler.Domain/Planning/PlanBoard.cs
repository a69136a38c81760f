namespace Scheduler.Domain.Planning;

/// <summary>The days with what has been put into them so far. Jobs and days are numbers here: their places in the lists.</summary>
internal sealed class PlanBoard
{
    private readonly int[] _dayOf;
    private readonly int[] _room;
    private readonly int[] _free;
    private readonly int[] _heavy;
    private readonly double[] _pressure;
    private readonly List<int>[] _on;
    private readonly bool[][] _allows;
    private readonly int[] _tree;

    public PlanBoard(IReadOnlyList<PlanJob> jobs, IReadOnlyList<int> minutesFree)
    {
        Jobs = jobs;
        _free = [.. minutesFree];
        _room = [.. minutesFree];
        _heavy = new int[_room.Length];
        _on = [.. _room.Select(_ => new List<int>())];
        _dayOf = new int[jobs.Count];
        Array.Fill(_dayOf, -1);
        _allows = new bool[jobs.Count][];
        _tree = new int[jobs.Count];
        _pressure = new double[_room.Length];
        var trees = new Dictionary<string, int>();
        for (var job = 0; job < jobs.Count; job++)
        {
            _allows[job] = new bool[_room.Length];
            var days = jobs[job].Places;
            foreach (var day in days)
            {
                _allows[job][day] = true;
                _pressure[day] += (double)jobs[job].Minutes / days.Length;
            }
            if (!trees.TryGetValue(jobs[job].TreeId, out _tree[job]))
                trees[jobs[job].TreeId] = _tree[job] = trees.Count;
        }
        for (var day = 0; day < _room.Length; day++)
            _pressure[day] /= Math.Max(_free[day], 1);
    }

    public IReadOnlyList<PlanJob> Jobs { get; }

    /// <summary>Worth of all jobs that have a place.</summary>
    public double Worth { get; private set; }

    public double Wanted => Jobs.Sum(job => job.Worth) - 1e-9;

    public int DayOf(int job) => _dayOf[job];

    public IReadOnlyList<int> On(int day) => _on[day];

    public int Room(int day) => _room[day];

    public bool Allows(int job, int day) => day >= 0 && day < _room.Length && _allows[job][day];

    /// <summary>Whether the job fits if one or two others, -1 for none, were taken off that day.</summary>
    public bool Fits(int job, int day, int without = -1, int alsoWithout = -1)
    {
        var one = Jobs[job];
        return one.Minutes <= _room[day] + Minutes(without) + Minutes(alsoWithout)
            && !(one.IsHeavy && _heavy[day] - Heavy(without) - Heavy(alsoWithout) > 0)
            && !Conflicts(job, day, without, alsoWithout);
    }

    public void Put(int job, int day)
    {
        _dayOf[job] = day;
        Worth += Jobs[job].Worth;
        _room[day] -= Jobs[job].Minutes;
        _heavy[day] += Jobs[job].IsHeavy ? 1 : 0;
        _on[day].Add(job);
    }

    public void Take(int job)
    {
        var day = _dayOf[job];
        _dayOf[job] = -1;
        Worth -= Jobs[job].Worth;
        _room[day] += Jobs[job].Minutes;
        _heavy[day] -= Jobs[job].IsHeavy ? 1 : 0;
        _on[day].Remove(job);
    }

    public void Move(int job, int day)
    {
        Take(job);
        Put(job, day);
    }

    /// <summary>On the day that fewest others want; among equals the earliest.</summary>
    public bool TryPlace(int job)
    {
        var best = -1;
        foreach (var day in Jobs[job].Places)
        {
            if (Fits(job, day) && (best < 0 || _pressure[day] < _pressure[best] - 1e-9))
                best = day;
        }
        if (best < 0)
            return false;
        Put(job, best);
        return true;
    }

    public Unplaced WhyNot(int job)
    {
        var one = Jobs[job];
        var free = one.Places.Where(day => _free[day] > 0).ToList();
        if (free.Count == 0)
            return new Unplaced(one, UnplacedCause.NoFreeDay, null, one.Minutes);
        var roomy = free.Where(day => _room[day] >= one.Minutes).ToList();
        if (roomy.Count > 0)
        {
            var day = roomy[0];
            return new Unplaced(one, Conflicts(job, day, -1, -1) ? UnplacedCause.ConflictThatDay : UnplacedCause.HeavyWorkThatDay, day, 0);
        }
        var nearest = free.MaxBy(day => _room[day]);
        return new Unplaced(one, UnplacedCause.TooLittleTime, nearest, one.Minutes - _room[nearest]);
    }

    private int Minutes(int job) => job < 0 ? 0 : Jobs[job].Minutes;

    private int Heavy(int job) => job >= 0 && Jobs[job].IsHeavy ? 1 : 0;

    private bool Conflicts(int job, int day, int without, int alsoWithout)
    {
        var one = Jobs[job];
        if (one.Kind == WorkKind.Other)
            return false;
        foreach (var other in _on[day])
        {
            if (other != without && other != alsoWithout && _tree[other] == _tree[job] && Jobs[other].Kind != WorkKind.Other && Jobs[other].Kind != one.Kind)
                return true;
        }
        return false;
    }
}
