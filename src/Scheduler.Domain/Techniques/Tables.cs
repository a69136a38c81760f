using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// The three decision tables and the technique's own bars, asked in the order in which they are told: group, stage,
/// goal, technique.
/// </summary>
internal static class Tables
{
    public static List<Outcome> Outcomes(Technique technique, TechniqueMode mode, TreeYear year)
    {
        List<Outcome> outcomes = [];
        foreach (var (species, reason) in technique.BarredSpecies)
        {
            if (species.EndsWith('-') ? year.Species.Id.StartsWith(species, StringComparison.Ordinal) : year.Species.Id == species)
                outcomes.Add(Outcome.Bar(reason));
        }
        AddCell(outcomes, technique.Groups, year.GroupCode, year);
        AddCell(outcomes, mode.Groups, year.GroupCode, year);
        AddCell(outcomes, technique.Stages, year.Tree.Stage, year);
        AddCell(outcomes, mode.Stages, year.Tree.Stage, year);
        AddGoals(outcomes, mode.Goals.Count > 0 ? mode.Goals : technique.Goals, technique, year);
        AddConditions(outcomes, technique.Conditions, year);
        AddConditions(outcomes, mode.Conditions, year);
        return outcomes;
    }

    private static void AddCell<T>(List<Outcome> outcomes, IReadOnlyDictionary<T, Cell> table, T key, TreeYear year)
    {
        if (table.Count == 0)
            return;
        var cell = table[key];
        if (cell.BarReason is { } reason)
            outcomes.Add(Outcome.Bar(reason));
        AddConditions(outcomes, cell.Conditions, year);
    }

    private static void AddConditions(List<Outcome> outcomes, IReadOnlyList<string> conditions, TreeYear year)
    {
        foreach (var id in conditions)
        {
            var outcome = ConditionSet.Find(id).Test(year);
            if (outcome.Effect != Effect.Pass)
                outcomes.Add(outcome);
        }
    }

    private static void AddGoals(List<Outcome> outcomes, IReadOnlyDictionary<Goal, GoalCell> table, Technique technique, TreeYear year)
    {
        if (table.Count == 0)
            return;
        var wanted = year.IsRequested(technique.Id) || technique.AlsoWanted.Any(trees => trees.Fits(year));
        GoalCell? rivals = null;
        foreach (var goal in year.Goals)
        {
            var cell = table[goal];
            if (cell.Wish is GoalWish.Barred or GoalWish.FreeGrowth)
                outcomes.Add(Outcome.Bar(cell.Reason!));
            // Only rivals are cut for a new leader, and that is booked as the leader change.
            if (cell.Wish == GoalWish.RivalsOnly && year.Branch?.Role == BranchRole.Leader)
                outcomes.Add(Outcome.Bar("leader-must-run"));
            wanted |= cell.Wish == GoalWish.Wanted;
            rivals = cell.Wish == GoalWish.RivalsOnly ? cell : rivals;
        }
        if (rivals is not null && year.Branch?.Role == BranchRole.Rival)
            outcomes.Add(Outcome.Leave("other-technique-does-this", "Rivals are shortened as part of the leader change."));
        else if (!wanted)
            outcomes.Add(Outcome.Leave(rivals?.Reason ?? "not-wanted-by-goal"));
    }
}
