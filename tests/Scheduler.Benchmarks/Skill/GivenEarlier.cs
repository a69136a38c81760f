using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Benchmarks.Skill;

/// <summary>A later phase where an earlier one of the same plant was seen that spring, block by block.</summary>
internal static class GivenEarlier
{
    private static readonly IReadOnlyList<(string Dataset, string Earlier, string Later)> Pairs =
    [
        ("harvard_forest", "budbreak_50pct", "leaf_75pct_size"),
        ("harvard_forest", "budbreak_50pct", "flower_open_50pct"),
        ("hubbard_brook", "bud_score_2", "bud_score_3"),
        ("fruit_trees", "flowering_begin_5pct", "flowering_50pct")
    ];

    /// <summary>Figures without and with the earlier date.</summary>
    public static IEnumerable<(string Later, Figures Plain, Figures Given)> Judge(Dataset data, ClockRules rules, Kinship kinship)
    {
        var pairs = Pairs.Where(pair => pair.Dataset == data.Name).ToList();
        if (pairs.Count == 0)
            yield break;
        var folds = Fold.Block(data.Dates, data.SitesShareYears)
            .Select(fold => (fold, Clock: new SeriesForecaster(new SharedClock(data.Sites, fold.Learn, rules, kinship), rules))).ToList();
        foreach (var (_, earlier, later) in pairs)
        {
            var (plain, given) = (new List<Judged>(), new List<Judged>());
            foreach (var (fold, clock) in folds)
            {
                var seen = fold.Judge.Where(date => date.Phase == earlier).ToDictionary(date => (date.Site, date.Kind, date.Year));
                foreach (var date in fold.Judge.Where(date => date.Phase == later && seen.ContainsKey((date.Site, date.Kind, date.Year))))
                {
                    plain.Add(new Judged(date, double.NaN, clock.Forecast(date.Series, date.Year, null)));
                    given.Add(new Judged(date, double.NaN, clock.Forecast(date.Series, date.Year, null, [seen[(date.Site, date.Kind, date.Year)]])));
                }
            }
            yield return (later, Figures.Of(plain), Figures.Of(given));
        }
    }
}
