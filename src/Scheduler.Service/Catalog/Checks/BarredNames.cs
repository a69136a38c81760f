using Scheduler.Domain.Trees;

namespace Scheduler.Service.Catalog.Checks;

/// <summary>A rule names a group, stage, goal or species that a table of the same technique never lets through.</summary>
internal static class BarredNames
{
    public static void Find(ModeSite site, RuleList list, FindingBook book)
    {
        for (var index = 0; index < list.Rules.Count; index++)
        {
            var rule = list.Rules[index];
            if (rule.AlsoBarred)
                continue;
            var place = site.At($"{list.Key}[{index}]");
            foreach (var group in rule.For.Groups)
                Tell($"group {group}", site.GroupBar(group));
            foreach (var stage in rule.For.Stages)
                Tell($"stage {Ids.Of(stage)}", site.StageBar(stage));
            foreach (var goal in rule.For.Goals)
                Tell($"goal {Ids.Of(goal)}", site.GoalBar(goal));
            foreach (var id in rule.For.Species)
            {
                // A species whose group is barred may still be named: an owner can put a cultivar into another group.
                var named = site.Species.Where(species => ModeSite.Matches(id, species.Id)).ToList();
                if (named.Count > 0 && named.TrueForAll(species => site.SpeciesBar(species.Id) is not null))
                    Tell($"species {id}", site.SpeciesBar(named[0].Id));
            }

            void Tell(string what, Place? bar)
            {
                if (bar is not null)
                    book.Contradiction(place, $"names {what}, which a table bars", bar, "Take it out of the rule, or let it pass in the table.");
            }
        }
    }
}
