using BenchmarkDotNet.Attributes;
using Scheduler.Benchmarks.Support;
using Scheduler.Domain.Accumulation;

namespace Scheduler.Benchmarks.Accumulation;

/// <summary>Degree-days above 5 C by the single sine through 30 years of daily extremes, against scalar C.</summary>
public class DegreeDaysBenchmark
{
    public const double Bar = 1.3;

    private static readonly DegreeDayRule Rule = new(DegreeDayMethod.SingleSine, 5);
    private readonly MadeYears _years = MadeYears.Thirty;
    private readonly double[] _total = new double[MadeYears.Thirty.Days];

    [Benchmark(Baseline = true)]
    public double ScalarInC()
    {
        ScalarC.Library!.SingleSine(_years.MinC, _years.MaxC, _years.Days, Rule.BaseC, _total);
        return _total[^1];
    }

    [Benchmark]
    public double SingleSine()
    {
        Rule.Accumulate(_years.MinC, _years.MaxC, _total);
        return _total[^1];
    }
}
