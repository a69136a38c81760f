using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Benchmarks.Skill;

/// <summary>
/// A new place (at a single place: a new species) with its first springs known: everything else teaches, the later springs judge.
/// </summary>
internal static class NewPlaces
{
    public static readonly IReadOnlyList<int> OwnSprings = [0, 1, 3, 5];

    /// <summary>Null where no series has that many years.</summary>
    public static Figures? Judge(Dataset data, int ownSprings, ClockRules rules, Kinship kinship)
    {
        Func<PhaseDate, string> place = data.IsOnePlace ? date => Kinship.SpeciesOf(date.Kind) : date => date.Site;
        var judged = new List<Judged>();
        foreach (var mine in data.Dates.GroupBy(place))
        {
            var fold = Fold.Split(mine, _ => ownSprings);
            if (fold.Judge.Count == 0)
                continue;
            var known = fold.Judge.Select(date => date.Series).ToHashSet();
            var own = fold.Learn.Where(date => known.Contains(date.Series));
            var forecaster = new SeriesForecaster(
                new SharedClock(data.Sites, data.Dates.Where(date => place(date) != mine.Key).Concat(own), rules, kinship), rules);
            var calendar = fold.Calendar();
            judged.AddRange(fold.Judge.Select(date =>
                new Judged(date, calendar.GetValueOrDefault(date.Series, double.NaN), forecaster.Forecast(date.Series, date.Year, null))));
        }
        return judged.Count == 0 ? null : Figures.Of(judged);
    }
}
