using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Benchmarks.Skill;

/// <summary>Known weather and issue dates before the usual one, as the owner meets them: only seasons that are not open yet.</summary>
internal static class Seasons
{
    /// <summary>Days from issue to the usual date; null: the whole season's weather.</summary>
    public static readonly IReadOnlyList<int?> Leads = [null, 7, 14, 30];

    public static IEnumerable<(int? Lead, Judged Judged)> Judge(Dataset data, IEnumerable<Fold> folds, ClockRules rules, Kinship kinship)
    {
        foreach (var fold in folds)
        {
            var forecaster = new SeriesForecaster(new SharedClock(data.Sites, fold.Learn, rules, kinship), rules);
            var calendar = fold.Calendar();
            foreach (var date in fold.Judge.Where(date => calendar.ContainsKey(date.Series)))
            {
                foreach (var lead in Leads)
                {
                    var usual = calendar[date.Series];
                    int? issued = lead is { } days ? (int)Math.Floor(usual) - days : null;
                    if (!(date.Day <= issued))
                        yield return (lead, new Judged(date, usual, forecaster.Forecast(date.Series, date.Year, issued)));
                }
            }
        }
    }
}
