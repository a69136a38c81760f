namespace Scheduler.Domain.Planning;

/// <summary>
/// The days with what has been put into them so far. Jobs, days and trees are numbers here: their places in the lists. Flat
/// arrays, so that a question costs some nanoseconds; every change can be taken back.
/// </summary>
internal sealed class PlanBoard
{
    private readonly int[] _minutes;
    private readonly int[] _tree;
    private readonly WorkKind[] _kind;
    private readonly bool[] _isHeavy;
    private readonly int[] _dayOf;
    private readonly int[] _placeOn;
    private readonly int[][] _on;
    private readonly int[] _count;
    private readonly int[] _free;
    private readonly int[] _room;
    private readonly int[] _heavy;
    private readonly int[] _roots;
    private readonly int[] _leaves;
    private readonly int[] _window;
    private readonly bool[] _visited;
    private readonly List<(int Job, int Day)> _done = [];

    public PlanBoard(IReadOnlyList<PlanJob> jobs, IReadOnlyList<int> minutesFree)
    {
        Jobs = [.. jobs];
        _free = [.. minutesFree];
        _room = [.. minutesFree];
        var (count, days) = (Jobs.Length, _room.Length);
        Worths = new double[count];
        Places = new int[count][];
        _minutes = new int[count];
        _tree = new int[count];
        _kind = new WorkKind[count];
        _isHeavy = new bool[count];
        _dayOf = new int[count];
        _placeOn = new int[count];
        Array.Fill(_dayOf, -1);
        _count = new int[days];
        _heavy = new int[days];
        _window = new int[count];
        var (trees, windows) = (new Dictionary<string, int>(), new Dictionary<string, int>());
        for (var job = 0; job < count; job++)
        {
            var one = Jobs[job];
            (Worths[job], _minutes[job], _kind[job], _isHeavy[job]) = (one.Worth, one.Minutes, one.Kind, one.IsHeavy);
            Places[job] = PossibleDays(one);
            foreach (var day in Places[job])
                _count[day]++;
            if (!trees.TryGetValue(one.TreeId, out _tree[job]))
                trees[one.TreeId] = _tree[job] = trees.Count;
            if (one.WindowId is null)
                _window[job] = -1;
            else if (!windows.TryGetValue(one.WindowId, out _window[job]))
                windows[one.WindowId] = _window[job] = windows.Count;
        }
        _on = new int[days][];
        for (var day = 0; day < days; day++)
            _on[day] = new int[_count[day]];
        Array.Clear(_count);
        _roots = new int[trees.Count * days];
        _leaves = new int[trees.Count * days];
        _visited = new bool[windows.Count * days];
    }

    public PlanJob[] Jobs { get; }

    public double[] Worths { get; }

    /// <summary>By job: its days that are long enough for it.</summary>
    public int[][] Places { get; }

    /// <summary>Worth of all jobs that have a place.</summary>
    public double Worth { get; private set; }

    public int Days => _room.Length;

    public int DayOf(int job) => _dayOf[job];

    public int Minutes(int job) => _minutes[job];

    public bool IsHeavy(int job) => _isHeavy[job];

    public int Free(int day) => _free[day];

    public int Room(int day) => _room[day];

    public ReadOnlySpan<int> On(int day) => _on[day].AsSpan(0, _count[day]);

    public bool Allows(int job, int day) => Array.IndexOf(Places[job], day) >= 0;

    public bool Fits(int job, int day) =>
        _minutes[job] <= _room[day] && !(_isHeavy[job] && _heavy[day] > 0) && !IsVisited(job, day) && !Conflicts(job, day);

    /// <summary>Another visit of its window stands there.</summary>
    public bool IsVisited(int job, int day) => _window[job] >= 0 && _visited[_window[job] * _room.Length + day];

    /// <summary>Two heavy jobs, two visits of one window, or root work and leaf work on one tree: one of them has to go, whatever the room.</summary>
    public bool Excludes(int job, int other) =>
        _isHeavy[job] && _isHeavy[other]
        || _window[job] >= 0 && _window[job] == _window[other]
        || _tree[job] == _tree[other] && _kind[job] != _kind[other] && _kind[job] != WorkKind.Other && _kind[other] != WorkKind.Other;

    public bool Conflicts(int job, int day) => _kind[job] switch
    {
        WorkKind.Roots => _leaves[_tree[job] * _room.Length + day] > 0,
        WorkKind.Leaves => _roots[_tree[job] * _room.Length + day] > 0,
        _ => false
    };

    public void Put(int job, int day)
    {
        _done.Add((job, -1));
        Add(job, day);
    }

    public void Take(int job)
    {
        _done.Add((job, _dayOf[job]));
        Remove(job);
    }

    /// <summary>What has been done so far; <see cref="BackTo"/> undoes all that came later.</summary>
    public int Mark => _done.Count;

    public void BackTo(int mark)
    {
        for (var last = _done.Count - 1; last >= mark; last--)
        {
            var (job, day) = _done[last];
            if (day < 0)
                Remove(job);
            else
                Add(job, day);
        }
        _done.RemoveRange(mark, _done.Count - mark);
    }

    private void Add(int job, int day)
    {
        _dayOf[job] = day;
        Worth += Worths[job];
        _room[day] -= _minutes[job];
        _heavy[day] += _isHeavy[job] ? 1 : 0;
        Count(job, day, 1);
        _placeOn[job] = _count[day];
        _on[day][_count[day]++] = job;
    }

    private void Remove(int job)
    {
        var day = _dayOf[job];
        _dayOf[job] = -1;
        Worth -= Worths[job];
        _room[day] += _minutes[job];
        _heavy[day] -= _isHeavy[job] ? 1 : 0;
        Count(job, day, -1);
        var last = _on[day][--_count[day]];
        _on[day][_placeOn[job]] = last;
        _placeOn[last] = _placeOn[job];
    }

    private void Count(int job, int day, int change)
    {
        if (_window[job] >= 0)
            _visited[_window[job] * _room.Length + day] = change > 0;
        if (_kind[job] == WorkKind.Roots)
            _roots[_tree[job] * _room.Length + day] += change;
        else if (_kind[job] == WorkKind.Leaves)
            _leaves[_tree[job] * _room.Length + day] += change;
    }

    private int[] PossibleDays(PlanJob job)
    {
        var (days, count) = (new int[job.Places.Length], 0);
        foreach (var day in job.Places)
        {
            if (day >= 0 && day < _free.Length && _free[day] >= job.Minutes)
                days[count++] = day;
        }
        Array.Resize(ref days, count);
        return days;
    }
}
