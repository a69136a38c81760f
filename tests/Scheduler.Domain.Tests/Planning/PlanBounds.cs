using Google.OrTools.LinearSolver;
using Google.OrTools.Sat;
using Scheduler.Domain.Planning;
using Linear = Google.OrTools.Sat.LinearExpr;

namespace Scheduler.Domain.Tests.Planning;

/// <summary>
/// Proven upper bounds of what any plan can be worth: the linear relaxation (GLOP) and the bound of an exact search (CP-SAT), both of
/// Google OR-Tools (L. Perron, V. Furnon, OR-Tools, developers.google.com/optimization). The least of them holds.
/// </summary>
internal static class PlanBounds
{
    /// <param name="enough">The search, which takes a second, is only made where the quick bounds are above this.</param>
    public static double Of(List<PlanJob> jobs, int[] free, PlanOutcome hint, double enough)
    {
        var placeable = jobs.Where(job => job.Days.Any(day => free[day] >= job.Minutes)).Sum(job => job.Worth);
        var quick = Math.Min(placeable, Relaxed(jobs, free));
        return quick <= enough ? quick : Math.Min(quick, Searched(jobs, free, hint));
    }

    private static double Relaxed(List<PlanJob> jobs, int[] free)
    {
        using var solver = Solver.CreateSolver("GLOP");
        var at = Places(jobs, free).Select(place => (place.Job, place.Day, Is: solver.MakeNumVar(0, 1, ""))).ToList();
        foreach (var job in at.GroupBy(place => place.Job))
            AtMost(job.Select(place => (place.Is, 1.0)), 1);
        foreach (var day in at.GroupBy(place => place.Day))
        {
            AtMost(day.Select(place => (place.Is, (double)jobs[place.Job].Minutes)), free[day.Key]);
            AtMost(day.Where(place => jobs[place.Job].IsHeavy).Select(place => (place.Is, 1.0)), 1);
        }
        solver.Objective().SetMaximization();
        foreach (var place in at)
            solver.Objective().SetCoefficient(place.Is, jobs[place.Job].Worth);
        Assert.Equal(Solver.ResultStatus.OPTIMAL, solver.Solve());
        return solver.Objective().Value();

        void AtMost(IEnumerable<(Variable Is, double Weight)> terms, double most)
        {
            var row = solver.MakeConstraint(0, most);
            foreach (var (variable, weight) in terms)
                row.SetCoefficient(variable, weight);
        }
    }

    private static double Searched(List<PlanJob> jobs, int[] free, PlanOutcome hint)
    {
        var model = new CpModel();
        var at = Places(jobs, free).Select(place => (place.Job, place.Day, Is: model.NewBoolVar(""))).ToList();
        foreach (var job in at.GroupBy(place => place.Job))
            model.AddAtMostOne(job.Select(place => place.Is));
        foreach (var day in at.GroupBy(place => place.Day))
        {
            model.Add(Linear.WeightedSum(day.Select(place => place.Is), day.Select(place => (long)jobs[place.Job].Minutes)) <= free[day.Key]);
            model.AddAtMostOne(day.Where(place => jobs[place.Job].IsHeavy).Select(place => place.Is));
            foreach (var tree in day.GroupBy(place => jobs[place.Job].TreeId))
            {
                foreach (var roots in tree.Where(place => jobs[place.Job].Kind == WorkKind.Roots))
                {
                    foreach (var leaves in tree.Where(place => jobs[place.Job].Kind == WorkKind.Leaves))
                        model.AddAtMostOne([roots.Is, leaves.Is]);
                }
            }
        }
        foreach (var place in at)
            model.AddHint(place.Is, hint.DayOf.GetValueOrDefault(jobs[place.Job].Id, -1) == place.Day);
        model.Maximize(Linear.WeightedSum(at.Select(place => place.Is), at.Select(place => (long)Math.Round(100 * jobs[place.Job].Worth))));
        // Work is counted, not timed, so that the bound is the same on every machine.
        var solver = new CpSolver { StringParameters = "max_deterministic_time:0.3,num_workers:1,random_seed:1,linearization_level:2" };
        Assert.True(solver.Solve(model) is CpSolverStatus.Feasible or CpSolverStatus.Optimal);
        return solver.BestObjectiveBound / 100;
    }

    private static IEnumerable<(int Job, int Day)> Places(List<PlanJob> jobs, int[] free) =>
        from job in Enumerable.Range(0, jobs.Count) from day in jobs[job].Days where free[day] >= jobs[job].Minutes select (job, day);
}
