using BenchmarkDotNet.Running;
using Scheduler.Benchmarks.Pages;
using Scheduler.Benchmarks.Skill;
using Scheduler.Benchmarks.Support;

switch (args)
{
    case ["ratios"]:
        return Ratios.Print(Console.Out);
    case ["skill", .. var folders]:
        return SkillTable.Print(folders.FirstOrDefault(), Console.Out, Console.Error);
    case ["pages"]:
        return await PageSpeed.PrintAsync(Console.Out);
    default:
        BenchmarkSwitcher.FromAssembly(typeof(Ratios).Assembly).Run(args, new ShortRuns());
        return 0;
}
