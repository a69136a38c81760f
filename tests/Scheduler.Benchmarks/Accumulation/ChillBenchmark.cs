using BenchmarkDotNet.Attributes;
using Scheduler.Benchmarks.Support;
using Scheduler.Domain.Accumulation;

namespace Scheduler.Benchmarks.Accumulation;

/// <summary>Chill portions of the dynamic model through 30 years of daily extremes, against scalar C.</summary>
public class ChillBenchmark
{
    public const double Bar = 0.6;

    private readonly MadeYears _years = MadeYears.Thirty;
    private readonly double[] _total = new double[MadeYears.Thirty.Days];

    [Benchmark(Baseline = true)]
    public double ScalarInC()
    {
        ScalarC.Library!.ChillPortions(_years.MinC, _years.MaxC, _years.Days, _total);
        return _total[^1];
    }

    [Benchmark]
    public double Tabulated()
    {
        new TabulatedChill().StepDays(_years.MinC, _years.MaxC, _total);
        return _total[^1];
    }

    [Benchmark]
    public double Exact()
    {
        new DynamicModel().StepDays(_years.MinC, _years.MaxC, _total);
        return _total[^1];
    }
}
