using Google.OrTools.Sat;
using Scheduler.Domain.Planning;
using Xunit.Abstractions;

namespace Scheduler.Domain.Tests.Planning;

/// <summary>
/// The planner held against the upper bound of an exact solver: Google OR-Tools CP-SAT (L. Perron, F. Didier, CP-SAT,
/// developers.google.com/optimization), which proves that no plan can be worth more.
/// </summary>
public class PlanBoundTests(ITestOutputHelper output)
{
    private const int Instances = 3;

    [Theory]
    [InlineData(0.8, 0.98)]
    [InlineData(1.0, 0.98)]
    [InlineData(1.3, 0.95)]
    public void Plan_IsWorthNearlyWhatAnExactSolverProvesPossible(double load, double least)
    {
        var shares = new List<double>();
        for (var seed = 1; seed <= Instances; seed++)
        {
            var (jobs, free) = MadePlan.Of(seed, load);
            var watch = System.Diagnostics.Stopwatch.StartNew();
            var plan = DayPlanner.Plan(jobs, free);
            output.WriteLine($"{watch.Elapsed.TotalMilliseconds:f1} ms, {plan.Unplaced.Count} unplaced: {string.Join(" ", plan.Unplaced.GroupBy(u => (u.Cause, u.Job.IsHeavy)).Select(g => $"{g.Key}={g.Count()}"))} wanted {MadePlan.Worth(jobs, plan) / jobs.Sum(j => j.Worth):p1} bound {Bound(jobs, free) / jobs.Sum(j => j.Worth):p1}");
            shares.Add(MadePlan.Worth(jobs, DayPlanner.Plan(jobs, free)) / Bound(jobs, free));
        }
        output.WriteLine($"load {load}: least {shares.Min():p2}, mean {shares.Average():p2} of the bound over {Instances} instances");
        Assert.All(shares, share => Assert.InRange(share, least, 1 + 1e-9));
    }

    private static double Bound(List<PlanJob> jobs, int[] free)
    {
        var model = new CpModel();
        var at = jobs.Select(job => job.Days.Select(day => (Day: day, Is: model.NewBoolVar(""))).ToList()).ToList();
        for (var job = 0; job < jobs.Count; job++)
            model.AddAtMostOne(at[job].Select(place => place.Is));
        for (var day = 0; day < free.Length; day++)
        {
            var here = Enumerable.Range(0, jobs.Count).SelectMany(job => at[job].Where(place => place.Day == day).Select(place => (Job: job, place.Is))).ToList();
            model.Add(LinearExpr.WeightedSum(here.Select(one => one.Is), here.Select(one => (long)jobs[one.Job].Minutes)) <= free[day]);
            model.AddAtMostOne(here.Where(one => jobs[one.Job].IsHeavy).Select(one => one.Is));
            foreach (var tree in here.GroupBy(one => jobs[one.Job].TreeId))
            {
                foreach (var roots in tree.Where(one => jobs[one.Job].Kind == WorkKind.Roots))
                {
                    foreach (var leaves in tree.Where(one => jobs[one.Job].Kind == WorkKind.Leaves))
                        model.AddAtMostOne([roots.Is, leaves.Is]);
                }
            }
        }
        var all = Enumerable.Range(0, jobs.Count).SelectMany(job => at[job].Select(place => (place.Is, Worth: (long)Math.Round(100 * jobs[job].Worth)))).ToList();
        model.Maximize(LinearExpr.WeightedSum(all.Select(one => one.Is), all.Select(one => one.Worth)));
        var solver = new CpSolver { StringParameters = "max_deterministic_time:0.3,num_workers:1,random_seed:1" };
        var status = solver.Solve(model);
        Assert.NotEqual(CpSolverStatus.Infeasible, status);
        return solver.BestObjectiveBound / 100;
    }
}
