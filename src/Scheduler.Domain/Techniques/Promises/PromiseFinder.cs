using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Promises;

/// <summary>
/// All that comes of a tree's logged work: the follow-ups of each technique with dates and how they stand today. What was
/// due in a growth year that is over is not told any more.
/// </summary>
public static class PromiseFinder
{
    /// <summary>By date; what has no date yet stands last.</summary>
    public static IReadOnlyList<Promise> Find(Craft craft, TreeFacts tree, GardenFacts garden)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentNullException.ThrowIfNull(garden);
        var log = tree.Work.Where(work => work.Date <= garden.Today && work.Extent != Extent.None).OrderBy(work => work.Date).ThenBy(work => work.Id).ToList();
        if (log.Count == 0)
            return [];
        var nights = new BenchNights(garden, craft.Thresholds);
        return PromisesOf(
            new TreeYear(craft, tree, garden, nights, tree.Current), new TreeYear(craft, tree, garden, nights, tree.Next), tree, log);
    }

    private static IReadOnlyList<Promise> PromisesOf(TreeYear current, TreeYear next, TreeFacts tree, List<WorkRecord> log)
    {
        var due = new PromiseDue(current, next);
        var promises = log.SelectMany(work => OfWork(work, due, current, tree)).ToList();
        var standing = new PromiseStanding(current, tree, log, promises);
        return
        [
            .. promises.Select(standing.Stand)
                .OrderBy(promise => promise.Opens.Likely ?? NodaTime.LocalDate.MaxIsoValue).ThenBy(promise => promise.Work.Date).ThenBy(promise => promise.Id)
        ];
    }

    private static IEnumerable<Promise> OfWork(WorkRecord work, PromiseDue due, TreeYear current, TreeFacts tree)
    {
        var told = new HashSet<(string, string?)>();
        var year = new Lazy<TreeYear>(() => YearOf(work, current, tree));
        foreach (var rule in Rules(work, current.Craft))
        {
            if (!rule.On.Contains(Verdict.DoNow) || told.Contains((rule.What, rule.Technique))
                || due.Of(rule, work) is not { } span || IsOver(span, current) || !rule.For.Fits(year.Value))
            {
                continue;
            }
            told.Add((rule.What, rule.Technique));
            yield return Made(work, rule, span, current);
        }
        if (NextRootWork.Of(work, current) is { } roots && NextRootWork.Span(work, current, due) is var rest && !IsOver(rest, current))
            yield return Made(work, roots, rest, current);
    }

    private static Promise Made(WorkRecord work, FollowUpRule rule, SeasonSpan span, TreeYear year) => new()
    {
        Id = PromiseId.Of(work.Id, rule.What, rule.Technique),
        TreeId = year.Tree.Id,
        Work = work,
        Kind = rule.Kind,
        What = rule.What,
        Technique = rule.Technique,
        Text = rule.Text,
        When = rule.When,
        Opens = span.Opens,
        Closes = span.Closes,
        AnsweredBy = rule.AnsweredBy
    };

    // The rules of the mode that was done; a record without a mode is of the first that takes such records.
    private static IReadOnlyList<FollowUpRule> Rules(WorkRecord work, Craft craft)
    {
        if (craft.Find(work.Technique) is not { } technique)
            return [];
        var mode = technique.Id == SeasonRun.Repotting
            ? technique.Modes.FirstOrDefault(mode => mode.Id == Ids.Of(WorkLog.ExtentOf(work)))
            : technique.Modes.FirstOrDefault(mode => !mode.IsStatement && (mode.Id is null || WorkLog.Fits(work, $"{technique.Id}/{mode.Id}")));
        return mode?.FollowUps ?? [];
    }

    // The tree as its log stood in the growth year of the work; work of autumn lies on the axis of the spring to come. Of years that
    // are over no weather is needed.
    private static TreeYear YearOf(WorkRecord work, TreeYear current, TreeFacts tree)
    {
        var worked = GrowthYear.Of(work.Date, current.Year.Hemisphere);
        if (current.Year.DayOf(work.Date) >= 0)
            return current;
        var site = tree.Current.Season.Site;
        var bare = SeasonEnsemble.Build(new SiteWeather(site.Latitude, site.Today, Weather.TemperatureSeries.From([])), worked);
        return new TreeYear(current.Craft, tree, current.Garden, current.Nights, new GrowthOutlook(bare, tree.Current.Clock, []));
    }

    private static bool IsOver(SeasonSpan span, TreeYear current) => (span.Closes.Late ?? span.Closes.Likely ?? span.Opens.Late) < current.Year.Turn;
}
