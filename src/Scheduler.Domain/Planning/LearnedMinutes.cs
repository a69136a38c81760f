using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Planning;

/// <summary>
/// Minutes of a visit [min]: the median of the owner's last logged ones of this technique on trees of this size, or, until there are enough
/// of them, the technique's own figure and a share for moving and tools.
/// </summary>
public sealed class LearnedMinutes
{
    private readonly PlanningRules _rules;
    private readonly Dictionary<(string, TreeSize), int> _learned = [];

    public LearnedMinutes(PlanningRules rules, IEnumerable<TreeFacts> trees)
    {
        ArgumentNullException.ThrowIfNull(rules);
        _rules = rules;
        var logged = trees.SelectMany(tree => tree.Work.Where(work => work.Minutes > 0).Select(work => (Work: work, tree.Tree.Size)));
        foreach (var same in logged.GroupBy(one => (one.Work.Technique, one.Size)))
        {
            var last = same.OrderByDescending(one => one.Work.Date).ThenBy(one => one.Work.Id).Take((int)rules.LearnLastSessions.Value)
                .Select(one => one.Work.Minutes!.Value).Order().ToList();
            if (last.Count >= rules.LearnFromSessions.Value)
                _learned[same.Key] = (last[(last.Count - 1) / 2] + last[last.Count / 2] + 1) / 2;
        }
    }

    public int Of(WorkWindow window, TreeSize size)
    {
        ArgumentNullException.ThrowIfNull(window);
        if (_learned.TryGetValue((window.Key.Technique, size), out var learned))
            return learned;
        return window.Minutes is { } minutes and > 0
            ? (int)Math.Ceiling(Math.Round(minutes * (1 + _rules.MovingPercent.Value / 100), 6))
            : (int)_rules.UnknownMinutes.Value;
    }
}
