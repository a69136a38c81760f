using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Filters;
using BenchmarkDotNet.Jobs;

namespace Scheduler.Benchmarks.Support;

/// <summary>Short jobs; without gcc the comparisons with C are left out, and it is said so.</summary>
internal sealed class ShortRuns : ManualConfig
{
    public ShortRuns()
    {
        Add(DefaultConfig.Instance);
        AddJob(Job.ShortRun);
        if (ScalarC.Library is not null)
            return;
        Console.WriteLine(ScalarC.Absent);
        AddFilter(new SimpleFilter(one => !one.Descriptor.WorkloadMethod.Name.Equals("ScalarInC", StringComparison.Ordinal)));
    }
}
