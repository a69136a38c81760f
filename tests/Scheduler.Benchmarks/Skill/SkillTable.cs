using System.Diagnostics;
using System.Globalization;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Service.Catalog;

namespace Scheduler.Benchmarks.Skill;

/// <summary>Prints how good the clock is on observed dates, as Markdown. Errors are mean absolute errors [d]; every year judged was left out.</summary>
public static class SkillTable
{
    internal const string UsualFolder = "shared/reference/phenology";

    public static int Print(string? folder, TextWriter output, TextWriter error)
    {
        if (FolderOf(folder) is not { } found)
        {
            error.WriteLine($"There is no folder {folder ?? "../" + UsualFolder}: give the folder of the observed dates.");
            return 1;
        }
        var watch = Stopwatch.StartNew();
        var (rules, kinship) = (ClockRules.Developed, KinshipReader.Load(new CatalogOptions().FolderOrDefault));
        var datasets = Dataset.All.Where(name => Directory.Exists(Path.Combine(found, name))).Select(name => Dataset.Read(found, name)).ToList();
        var seasons = new List<SeasonResult>();
        foreach (var data in datasets)
        {
            foreach (var (scheme, folds) in Fold.Both(data.Dates, data.SitesShareYears))
                seasons.AddRange(Seasons.Judge(data, folds, rules, kinship).Select(one => new SeasonResult(data.Name, scheme, one.Lead, one.Judged)));
            error.WriteLine($"{data.Name}: {watch.Elapsed.TotalSeconds.ToString("f0", CultureInfo.InvariantCulture)} s");
        }
        var pages = new SkillPages(output);
        pages.KnownWeather(seasons);
        pages.Leads(seasons);
        pages.Places(seasons);
        var six = datasets.Where(data => Dataset.Six.Contains(data.Name)).ToList();
        pages.OwnSprings(
            [.. six.SelectMany(data => Newcomers(data, NewPlaces.Usual(data)))],
            [.. six.Where(data => data.KindsAreCultivars).SelectMany(data => Newcomers(data, Newcomer.Place))]);
        pages.Given([.. datasets.SelectMany(data => GivenEarlier.Judge(data, rules, kinship).Select(row => (data.Name, row.Later, row.Plain, row.Given)))]);
        pages.Autumn([.. datasets.Where(data => data.AutumnDates.Count > 0).SelectMany(data =>
            Fold.Both(data.AutumnDates, sitesShareYears: true).Select(both => (data.Name, both.Name, Autumns.Judge(data, both.Folds, rules, kinship))))]);
        error.WriteLine($"done in {watch.Elapsed.TotalSeconds.ToString("f0", CultureInfo.InvariantCulture)} s");
        return 0;

        IEnumerable<OwnSpringsResult> Newcomers(Dataset data, Newcomer newcomer) => NewPlaces.OwnSprings
            .Select(own => new OwnSpringsResult(data.Name, newcomer, own, NewPlaces.Judge(data, newcomer, own, rules, kinship)));
    }

    /// <summary>The folder named, else the usual one beside the repository; null: there is none.</summary>
    internal static string? FolderOf(string? folder) => (folder ?? FindUsual()) is { } found && Directory.Exists(found) ? found : null;

    private static string? FindUsual()
    {
        for (var folder = new DirectoryInfo(Directory.GetCurrentDirectory()); folder is not null; folder = folder.Parent)
        {
            if (Directory.Exists(Path.Combine(folder.FullName, UsualFolder)))
                return Path.Combine(folder.FullName, UsualFolder);
        }
        return null;
    }
}

internal sealed record SeasonResult(string Dataset, string Scheme, int? Lead, Judged Judged);

internal sealed record OwnSpringsResult(string Dataset, Newcomer Newcomer, int Own, Figures? Figures);
