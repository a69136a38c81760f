using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Planning;

/// <summary>
/// Minutes of a visit [min]: the median of the owner's last logged ones of this work on trees of this size, or, until there are enough
/// of them, the technique's own figure and a share for moving and tools. A session logged without a mode counts for all of them.
/// </summary>
public sealed class LearnedMinutes
{
    private readonly PlanningRules _rules;
    private readonly ILookup<(string, TreeSize), WorkRecord> _newestFirst;

    public LearnedMinutes(PlanningRules rules, IEnumerable<TreeFacts> trees)
    {
        ArgumentNullException.ThrowIfNull(rules);
        _rules = rules;
        _newestFirst = trees.SelectMany(tree => tree.Work.Where(work => work.Minutes > 0).Select(work => (Work: work, tree.Tree.Size)))
            .OrderByDescending(one => one.Work.Date).ThenBy(one => one.Work.Id)
            .ToLookup(one => (one.Work.Technique, one.Size), one => one.Work);
    }

    /// <summary>The minutes, and how many logged sessions they are learned from; null: none.</summary>
    public (int Minutes, int? Sessions) Of(WorkWindow window, TreeSize size)
    {
        ArgumentNullException.ThrowIfNull(window);
        var last = _newestFirst[(window.Key.Technique, size)].Where(work => work.Mode is null || work.Mode == window.Key.Mode)
            .Take((int)_rules.LearnLastSessions.Value).Select(work => work.Minutes!.Value).Order().ToList();
        if (last.Count >= _rules.LearnFromSessions.Value)
            return ((last[(last.Count - 1) / 2] + last[last.Count / 2] + 1) / 2, last.Count);
        return window.Minutes is { } minutes and > 0
            ? ((int)Math.Ceiling(Math.Round(minutes * (1 + _rules.MovingPercent.Value / 100), 6)), null)
            : ((int)_rules.UnknownMinutes.Value, null);
    }
}
