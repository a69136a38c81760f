using System.Diagnostics;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Service.Catalog;

namespace Scheduler.Service.Hindcast;

/// <summary>The command <c>hindcast</c>: files in, a file out. Tells every fault at once and then writes nothing.</summary>
public static class HindcastCommand
{
    public const string Name = "hindcast";

    private static readonly TimeSpan QuietFor = TimeSpan.FromSeconds(1);

    /// <returns>The exit code: 0 when the answers are written.</returns>
    public static int Run(IReadOnlyList<string> args, TextWriter error)
    {
        ArgumentNullException.ThrowIfNull(args);
        ArgumentNullException.ThrowIfNull(error);
        var (files, mistakes) = HindcastArguments.Read(args);
        if (files is null)
            return Refuse(error, [.. mistakes, HindcastArguments.Usage]);
        var faults = new InputFaults();
        if (Directory.Exists(files.Out) || !Directory.Exists(Path.GetDirectoryName(Path.GetFullPath(files.Out))))
            faults.Add(new InputFault(files.Out, 0, "", null, "cannot be written: it is a folder or lies in none", "Name a file in a folder that exists."));
        var input = HindcastReader.Read(files.Weather, files.Sites, files.Observations, files.Asked, faults);
        if (input is null)
        {
            faults.WriteTo(error);
            return Refuse(error, ["Nothing was written."]);
        }
        try
        {
            var kinship = KinshipReader.Load(new CatalogOptions { Folder = Environment.GetEnvironmentVariable("Catalog__Folder") }.FolderOrDefault);
            var answers = new HindcastRun(input, ClockRules.Developed, kinship).Answers(Progress(error, input.Asked.Count));
            AnswersFile.Write(files.Out, answers);
            var empty = answers.Count(answer => answer.Likely is null);
            if (empty > 0)
                error.WriteLine($"hindcast: {empty} of {answers.Count} have no date: the phase is not expected, or nothing is known of it there.");
            return 0;
        }
        catch (CatalogException refusal)
        {
            return Refuse(error, [refusal.Message]);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return Refuse(error, [$"{files.Out}: cannot be written: {problem.Message}"]);
        }
    }

    private static int Refuse(TextWriter error, IEnumerable<string> lines)
    {
        foreach (var line in lines)
            error.WriteLine(line);
        return 1;
    }

    private static Action<int> Progress(TextWriter error, int total)
    {
        var sinceLast = Stopwatch.StartNew();
        return done =>
        {
            if (sinceLast.Elapsed < QuietFor)
                return;
            error.WriteLine($"hindcast: {done} of {total}");
            sinceLast.Restart();
        };
    }
}
