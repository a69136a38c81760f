using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Benchmarks.Skill;

/// <summary>What is new to the clock while everything else teaches.</summary>
internal enum Newcomer { Place, Species, Cultivar }

/// <summary>
/// A newcomer with its first springs known: everything else teaches, the later springs judge. New is a place, at a single place a
/// species, and in the fruit records a cultivar (a tenth of them at a time): sent to a new country all of them change with the place.
/// </summary>
internal static class NewPlaces
{
    private const int CultivarRounds = 10;
    public static readonly IReadOnlyList<int> OwnSprings = [0, 1, 3, 5];

    /// <summary>What counts for the mean.</summary>
    public static Newcomer Usual(Dataset data) => data.IsOnePlace ? Newcomer.Species : data.KindsAreCultivars ? Newcomer.Cultivar : Newcomer.Place;

    /// <summary>Null where no series has that many years.</summary>
    public static Figures? Judge(Dataset data, Newcomer newcomer, int ownSprings, ClockRules rules, Kinship kinship)
    {
        var cultivars = data.Dates.Select(date => (date.Site, date.Kind)).Distinct().Order().Select((one, index) => (one, index)).ToDictionary(one => one.one, one => one.index);
        Func<PhaseDate, string> unit = newcomer switch
        {
            Newcomer.Species => date => Kinship.SpeciesOf(date.Kind),
            Newcomer.Cultivar => date => $"{cultivars[(date.Site, date.Kind)] % CultivarRounds}",
            _ => date => date.Site
        };
        var judged = new List<Judged>();
        foreach (var mine in data.Dates.GroupBy(unit))
        {
            var fold = Fold.Split(mine, _ => ownSprings);
            if (fold.Judge.Count == 0)
                continue;
            var known = fold.Judge.Select(date => date.Series).ToHashSet();
            var own = fold.Learn.Where(date => known.Contains(date.Series));
            var forecaster = new SeriesForecaster(
                new SharedClock(data.Sites, data.Dates.Where(date => unit(date) != mine.Key).Concat(own), rules, kinship), rules);
            var calendar = fold.Calendar();
            judged.AddRange(fold.Judge.Select(date =>
                new Judged(date, calendar.GetValueOrDefault(date.Series, double.NaN), forecaster.Forecast(date.Series, date.Year, null))));
        }
        return judged.Count == 0 ? null : Figures.Of(judged);
    }
}
