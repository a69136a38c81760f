using Scheduler.Domain.Trees;

namespace Scheduler.Service.Catalog.Checks;

/// <summary>A fallback or follow-up sends trees to work that a table of that work bars for them.</summary>
internal static class BarredTargets
{
    public static void Find(ModeSite site, RuleList list, FindingBook book)
    {
        if (list.Rules.All(rule => rule.Targets.Count == 0))
            return;
        for (var index = 0; index < list.Rules.Count; index++)
        {
            var rule = list.Rules[index];
            if (rule.Targets.Count == 0)
                continue;
            var place = site.At($"{list.Key}[{index}]");
            var kinds = Reached(site, list, index);
            foreach (var group in kinds.Select(kind => kind.Group).Distinct())
                Tell($"group {group}", rule.Targets.Select(target => (target, site.TargetBar(target, group))));
            foreach (var stage in kinds.Select(kind => kind.Stage).Distinct())
                Tell($"stage {Ids.Of(stage)}", rule.Targets.Select(target => (target, site.TargetBar(target, stage))));

            // Of several targets one that is open is enough: trees differ.
            void Tell(string what, IEnumerable<(string Target, Place? Bar)> bars)
            {
                var all = bars.ToList();
                if (all.TrueForAll(one => one.Bar is not null))
                    book.Contradiction(place, $"sends {what} to {all[0].Target}, which a table bars for it", all[0].Bar!, "Name other work for these trees, or take them out of the rule.");
            }
        }
    }

    private static List<TreeKind> Reached(ModeSite site, RuleList list, int index)
    {
        // Stages must be told apart here even if no rule asks for them.
        var told = list with { Rules = [.. list.Rules, new CheckedRule(new() { Stages = Enum.GetValues<TreeStage>() }, [], false)] };
        var rule = list.Rules[index];
        return [.. TreeKind.All(site, told, rule.AlsoBarred).Where(kind => kind.Fits(rule.For)
            && !(list.FirstCounts && list.Rules.Take(index).Any(earlier => earlier.For.Situations.All(rule.For.Situations.Contains) && kind.AlwaysFits(earlier.For))))];
    }
}
