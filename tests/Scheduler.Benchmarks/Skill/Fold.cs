using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Benchmarks.Skill;

/// <summary>Dates to learn from and dates to be judged by; no series has a year in both.</summary>
internal sealed record Fold(IReadOnlyList<PhaseDate> Learn, IReadOnlyList<PhaseDate> Judge)
{
    private const int Blocks = 5;
    private const double ShareToLearn = 0.65;

    /// <summary>Five runs of neighboring years, each left out in turn.</summary>
    public static IEnumerable<Fold> Block(IReadOnlyList<PhaseDate> dates, bool sitesShareYears)
    {
        var years = dates.GroupBy(date => sitesShareYears ? "" : date.Site)
            .ToDictionary(site => site.Key, site => site.Select(date => date.Year).Distinct().Order().ToList());
        for (var block = 0; block < Blocks; block++)
        {
            var left = dates.ToLookup(date => BlockOf(years[sitesShareYears ? "" : date.Site], date.Year) == block);
            yield return new Fold([.. left[false]], [.. left[true]]);
        }
    }

    /// <summary>The first 65 % of each series' years teach, the rest judge.</summary>
    public static IEnumerable<Fold> Later(IReadOnlyList<PhaseDate> dates) =>
        [Split(dates, count => (int)Math.Ceiling(count * ShareToLearn))];

    /// <summary>So many first years of each series teach.</summary>
    public static Fold Split(IEnumerable<PhaseDate> dates, Func<int, int> toLearn)
    {
        var (learn, judge) = (new List<PhaseDate>(), new List<PhaseDate>());
        foreach (var series in dates.GroupBy(date => date.Series))
        {
            var years = series.OrderBy(date => date.Year).ToList();
            learn.AddRange(years.Take(toLearn(years.Count)));
            judge.AddRange(years.Skip(toLearn(years.Count)));
        }
        return new Fold(learn, judge);
    }

    public static IEnumerable<(string Name, IEnumerable<Fold> Folds)> Both(IReadOnlyList<PhaseDate> dates, bool sitesShareYears) =>
        [("block", Block(dates, sitesShareYears)), ("later", Later(dates))];

    /// <summary>Mean day of each series in the years to learn from: the calendar.</summary>
    public Dictionary<SeriesKey, double> Calendar() =>
        Learn.GroupBy(date => date.Series).ToDictionary(series => series.Key, series => series.Average(date => date.Day));

    private static int BlockOf(List<int> years, int year) => years.IndexOf(year) * Blocks / years.Count;
}
