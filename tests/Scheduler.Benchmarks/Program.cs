using BenchmarkDotNet.Running;
using Scheduler.Benchmarks.Support;

switch (args)
{
    case ["ratios"]:
        return Ratios.Print(Console.Out);
    default:
        BenchmarkSwitcher.FromAssembly(typeof(Ratios).Assembly).Run(args, new ShortRuns());
        return 0;
}
