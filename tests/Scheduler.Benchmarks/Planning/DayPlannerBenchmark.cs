using BenchmarkDotNet.Attributes;
using Scheduler.Domain.Planning;
using Scheduler.Domain.Tests.Planning;

namespace Scheduler.Benchmarks.Planning;

/// <summary>Planning 300 visits into 40 days, at the load the tests hold hardest.</summary>
public class DayPlannerBenchmark
{
    /// <summary>At most so long for one plan [ms].</summary>
    public const double BarMs = 5;

    private (List<PlanJob> Jobs, int[] MinutesFree) _made;

    [Params(0.8, 1.0, 1.3)]
    public double Load { get; set; } = 1.3;

    [GlobalSetup]
    public void Setup() => _made = MadePlan.Of(1, Load);

    [Benchmark]
    public PlanOutcome Plan() => DayPlanner.Plan(_made.Jobs, _made.MinutesFree);
}
