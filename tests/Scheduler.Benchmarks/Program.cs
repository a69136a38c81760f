using BenchmarkDotNet.Running;
using Scheduler.Benchmarks.Skill;

if (args is ["skill", .. var folders])
    return SkillTable.Print(folders.FirstOrDefault(), Console.Out, Console.Error);
BenchmarkSwitcher.FromAssembly(typeof(SkillTable).Assembly).Run(args);
return 0;
