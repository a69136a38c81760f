using Scheduler.Domain.Planning;
using Xunit.Abstractions;

namespace Scheduler.Domain.Tests.Planning;

/// <summary>The planner held against what is proven that no plan can exceed.</summary>
public class PlanBoundTests(ITestOutputHelper output)
{
    private const int Instances = 30;
    private const int AlwaysSearched = 2;

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
            var plan = DayPlanner.Plan(jobs, free);
            var worth = MadePlan.Worth(jobs, plan);
            shares.Add(worth / PlanBounds.Of(jobs, free, plan, seed <= AlwaysSearched ? 0 : worth / least));
        }
        output.WriteLine($"load {load}: least {shares.Min():p2}, mean {shares.Average():p2} of the bound over {Instances} instances");
        Assert.All(shares, share => Assert.InRange(share, least, 1 + 1e-9));
    }
}
