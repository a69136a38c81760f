using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Benchmarks.Skill;

/// <summary>Leaf color with the weather known.</summary>
internal static class Autumns
{
    public static Figures Judge(Dataset data, IEnumerable<Fold> folds, ClockRules rules, Kinship kinship)
    {
        var judged = new List<Judged>();
        foreach (var fold in folds)
        {
            var clock = new AutumnClock(data.Sites, fold.Learn, rules, kinship);
            var calendar = fold.Calendar();
            judged.AddRange(fold.Judge.Where(date => calendar.ContainsKey(date.Series))
                .Select(date => new Judged(date, calendar[date.Series], clock.Forecast(date.Series, date.Year, null))));
        }
        return Figures.Of(judged);
    }
}
