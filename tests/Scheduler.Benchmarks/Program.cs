using System.Globalization;
using BenchmarkDotNet.Running;
using Scheduler.Benchmarks.Pages;
using Scheduler.Benchmarks.Replay;
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
    case ["replay", .. var rest]:
        return await ReplayTable.PrintAsync(
            rest.FirstOrDefault(Directory.Exists), [.. rest.Where(one => int.TryParse(one, out _)).Select(one => int.Parse(one, CultureInfo.InvariantCulture))], Console.Out, Console.Error);
    default:
        BenchmarkSwitcher.FromAssembly(typeof(Ratios).Assembly).Run(args, new ShortRuns());
        return 0;
}
