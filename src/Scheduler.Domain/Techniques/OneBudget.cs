using NodaTime;
using Scheduler.Domain.Techniques.Conditions;
using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// What is to be done today counts as this season's work: where several jobs are open that go over the season's share
/// of heavy work together, root work that is due goes first, else what the owner asked for, else what a goal wants,
/// else what closes first. The rest is not allowed this season. Medium jobs alone bar each other only
/// once they are logged; until then each tells how many of them the tree bears. Work that would use up what wanted work of
/// later this season needs says so, and the owner chooses.
/// </summary>
internal static class OneBudget
{
    private const int Medium = 2;
    private const int Wanted = 2;

    public static List<Judged> Share(List<Judged> season, TreeYear year) => Foretold(OfToday(season, year), year);

    private static List<Judged> OfToday(List<Judged> season, TreeYear year)
    {
        var jobs = season.Where(judged => LoadToday(judged) >= Medium).ToList();
        if (jobs.Count < 2)
            return season;
        var doing = new Dictionary<string, int>();
        var over = new HashSet<Judged>();
        foreach (var job in jobs.OrderBy(Rank).ThenBy(job => Passes.ClosingBand(job.Judgement).Likely ?? LocalDate.MaxIsoValue))
        {
            var (technique, load) = (job.Judgement.Technique, LoadToday(job));
            if (LoadBudget.Fits(technique, load, year, doing))
                doing[technique.Id] = Math.Max(load, doing.GetValueOrDefault(technique.Id));
            else
                over.Add(job);
        }
        if (over.Count == 0)
            return season;
        // Several medium jobs are the owner's to choose from: whichever are done first bar the rest.
        if (!jobs.Exists(job => LoadToday(job) > Medium))
        {
            var names = string.Join(", ", jobs.OrderBy(Rank).Select(job => job.Judgement.Technique.Id.Replace('-', ' ')).Distinct());
            var choice = $"Of {names} it bears only {doing.Count} this season.";
            return season.ConvertAll(judged => jobs.Contains(judged) ? judged.Limited(choice) : judged);
        }
        return season.ConvertAll(judged => over.Contains(judged) ? Barred(judged) : judged);
    }

    private static List<Judged> Foretold(List<Judged> season, TreeYear year)
    {
        if (!season.Exists(judged => LoadToday(judged) >= Medium))
            return season;
        var later = season.Where(judged => Rank(judged) <= Wanted && LoadLater(judged) is >= Medium and var load
            && LoadBudget.Fits(judged.Judgement.Technique, load, year) && judged.IsComing).ToList();
        if (later.Count == 0)
            return season;
        return season.ConvertAll(judged => LoadToday(judged) is >= Medium and var load && Lost(judged, load) is { Count: > 0 } lost
            ? judged.Limited($"Done now, it leaves no room for {string.Join(" or ", lost)} this season.")
            : judged);

        List<string> Lost(Judged now, int load)
        {
            var doing = new Dictionary<string, int> { [now.Judgement.Technique.Id] = load };
            return
            [
                .. later.Where(judged => judged.Judgement.Technique != now.Judgement.Technique
                        && !LoadBudget.Fits(judged.Judgement.Technique, LoadLater(judged), year, doing))
                    .Select(judged => judged.Judgement.Technique.Id.Replace('-', ' ')).Distinct()
            ];
        }
    }

    private static int LoadLater(Judged judged) => judged.Judgement.Mode.Relieves || judged.Judgement.Verdict is not (Verdict.Wait or Verdict.Ask)
        ? 0
        : judged.Parts.Where(part => part.Verdict is Verdict.Wait or Verdict.Ask).Select(part => part.Load).DefaultIfEmpty().Max();

    // Two parts worked alike are as much as the whole tree, and the later of them was judged so.
    private static int LoadToday(Judged judged) => judged.Judgement.Mode.Relieves || judged.Judgement.Year.HasRottingRoots
        ? 0
        : judged.Parts.Where(part => part.Verdict == Verdict.DoNow).Select(part => part.Load).DefaultIfEmpty().Max();

    private static int Rank(Judged judged)
    {
        var (technique, mode, year) = (judged.Judgement.Technique, judged.Judgement.Mode, judged.Judgement.Year);
        if (technique.Id == SeasonRun.Repotting && RootWorkDue.IsDue(year))
            return 0;
        if (year.IsRequested(technique.Id))
            return 1;
        var goals = mode.Goals.Count > 0 ? mode.Goals : technique.Goals;
        return year.Goals.Any(goal => goals.TryGetValue(goal, out var cell) && cell.Wish == GoalWish.Wanted) ? Wanted : Wanted + 1;
    }

    private static Judged Barred(Judged judged) => new(
    [
        .. judged.Parts.Select(part => part.Verdict is Verdict.DoNow or Verdict.Ask or Verdict.Wait
            ? part with
            {
                Verdict = Verdict.NotAllowed,
                Reasons = [part.Year.Because("too-soon-since-heavy-work", "Other work that is open today takes the season's share of heavy work.")],
                BarredUntil = new SeasonTrigger("next-season")
            }
            : part)
    ], hasWindows: false);
}
