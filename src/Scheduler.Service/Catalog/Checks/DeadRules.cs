using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Catalog.Checks;

/// <summary>
/// Rules that no tree can meet, rules behind one that always fits first, and trees that the tables let through but no
/// window speaks of.
/// </summary>
internal static class DeadRules
{
    public static void Find(ModeSite site, RuleList list, FindingBook book)
    {
        if (list.Rules.Count == 0)
            return;
        var barredToo = list.Rules.Any(rule => rule.AlsoBarred);
        var kinds = TreeKind.All(site, list, barredToo);
        for (var index = 0; index < list.Rules.Count; index++)
        {
            var rule = list.Rules[index].For;
            var place = site.At($"{list.Key}[{index}]");
            var fitting = kinds.Where(kind => kind.Fits(rule)).ToList();
            if (fitting.Count == 0)
            {
                if (rule.Groups.Count == 0 && MeansOtherPlants(site, rule))
                    continue;
                book.DeadRule(place, "holds for no tree of the catalog that the tables let through", Blocking(site, rule), "Correct its 'for', or take the rule out.");
                continue;
            }
            if (!list.FirstCounts)
                continue;
            var earlier = list.Rules.Take(index).Select((one, at) => (one.For, At: at))
                .Where(one => one.For.Situations.All(rule.Situations.Contains)).ToList();
            if (earlier.Count > 0 && fitting.TrueForAll(kind => earlier.Exists(one => kind.AlwaysFits(one.For))))
            {
                var first = earlier.First(one => fitting[0].AlwaysFits(one.For)).At;
                book.DeadRule(place, "is never reached: an earlier one always fits first", site.At($"{list.Key}[{first}]"), "Put it before that one, or narrow the 'for' of that one.");
            }
        }
        if (list.MustCover && kinds.Find(kind => !list.Rules.Any(rule => rule.For.Situations.Count == 0 && kind.AlwaysFits(rule.For))) is { } left)
        {
            book.Contradiction(site.At(list.Key), $"has no entry for {Named(left)}, which the tables let through", site.At(TableOf(site, left)),
                "Add a last entry without 'for', or bar these trees in the tables.");
        }
    }

    /// <summary>A gap after work that no tree can get as well.</summary>
    public static void FindGaps(ModeSite site, FindingBook book)
    {
        for (var index = 0; index < site.Mode.Gaps.Count; index++)
        {
            foreach (var work in site.Mode.Gaps[index].After.Where(work => site.Craft.Find(work) is not null))
            {
                var groups = site.Craft.Groups.Keys.Where(group => site.GroupBar(group) is null).ToList();
                if (groups.Count > 0 && groups.TrueForAll(group => site.TargetBar(work, group) is not null))
                    book.DeadRule(site.At($"{site.Key}.gaps[{index}]"), $"waits for {work}, which is barred for every group that comes here", site.TargetBar(work, groups[0]), "Take it out of the gap.");
            }
        }
    }

    // Plants of a barred group may come in another group (an owner can put a cultivar there), and a beginning such as
    // "ilex-" may stand for species the catalog does not have yet.
    private static bool MeansOtherPlants(ModeSite site, AppliesTo rule) =>
        rule.Species.Any(named => named.EndsWith('-') && !site.Species.Any(species => ModeSite.Matches(named, species.Id)))
        || site.Species.Any(species => site.GroupBar(species.Group) is not null
            && (rule.Species.Count == 0 || rule.Species.Any(named => ModeSite.Matches(named, species.Id)))
            && (rule.Attributes.Count == 0 || rule.Attributes.Any(species.Attributes.Contains)));

    private static Place? Blocking(ModeSite site, AppliesTo rule) =>
        rule.Groups.Select(site.GroupBar).Concat(rule.Stages.Select(site.StageBar)).Concat(rule.Goals.Select(site.GoalBar)).FirstOrDefault(bar => bar is not null);

    private static string Named(TreeKind kind) => $"{kind.Species?.Id ?? kind.Group} in {Ids.Of(kind.Stage)} with {string.Join(" and ", kind.Goals.Select(goal => Ids.Of(goal)))}";

    private static string TableOf(ModeSite site, TreeKind kind) => site.Mode.Groups.Count > 0 ? $"{site.Key}.groups.{kind.Group}" : $"groups.{kind.Group}";
}
