using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Service.Tests.Catalog;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Every technique, in each way of doing it, answers every kind of tree with a verdict and a reason.</summary>
public class CompletenessTests
{
    // Before growth, in the first flush, in late summer and in dormancy.
    private static readonly LocalDate[] Days = [new(2026, 3, 1), new(2026, 5, 10), new(2026, 8, 20), new(2026, 12, 1)];

    private static readonly TreeStage[] Stages = Enum.GetValues<TreeStage>();
    private static readonly Goal[] Goals = Enum.GetValues<Goal>();
    private static readonly Health[] Healths = Enum.GetValues<Health>();

    [Fact]
    public void EveryGroupStageAndGoal_IsAnsweredByEveryTechniqueWithAReason()
    {
        var left = new List<string>();
        var count = 0;
        for (var day = 0; day < Days.Length; day++)
        {
            var season = new MadeSeason { Today = Days[day], DaysToFrost = 200 - day * 50, WarmDays = 20 + 40 * (day % 3) };
            var site = season.Site();
            var garden = Trees.Garden(season);
            var (current, next) = (SeasonEnsemble.Build(site, site.CurrentYear), SeasonEnsemble.Build(site, site.CurrentYear.Next));
            foreach (var (group, at) in Trees.Craft.Groups.Keys.Order(StringComparer.Ordinal).Select((group, at) => (group, at)))
            {
                var model = Trees.Facts(Trees.Tree(SpeciesOf(group), TreeStage.Refinement, Goal.Slender) with { Group = group }, current, next);
                foreach (var stage in Stages)
                {
                    foreach (var goal in Goals)
                    {
                        // The whole matrix for vigorous trees in spring; health turns with the cell on the other days.
                        var turn = at + (int)stage * 3 + (int)goal;
                        if (day != 1 && turn % Days.Length != day)
                            continue;
                        var health = day == 1 ? Health.Vigorous : Healths[(turn / Days.Length + day) % Healths.Length];
                        var tree = model.Tree with { Stage = stage, Goals = [goal], Health = health };
                        Look(Advisor.Advise(Trees.Craft, model with { Tree = tree }, garden), group, $"{group} {stage} {goal} {health} on {season.Today}", left);
                        count++;
                    }
                }
            }
        }
        Assert.True(left.Count == 0, string.Join(Environment.NewLine, left.Take(20)));
        Assert.True(count >= Trees.Craft.Groups.Count * Stages.Length * Goals.Length, $"{count} cases");
    }

    [Fact]
    public void EveryTable_SpeaksOfAllGroupsStagesAndGoalsOrIsLeftOut()
    {
        var tables = from technique in Trees.Craft.Techniques
                     from counts in technique.Modes.Select(mode => (mode.Groups.Count, mode.Stages.Count, mode.Goals.Count))
                         .Append((technique.Groups.Count, technique.Stages.Count, technique.Goals.Count))
                     select (technique.Id, counts);
        Assert.All(tables, table =>
        {
            Assert.True(table.counts.Item1 is 0 or 18, $"{table.Id}: {table.counts.Item1} groups");
            Assert.True(table.counts.Item2 is 0 or 4, $"{table.Id}: {table.counts.Item2} stages");
            Assert.True(table.counts.Item3 is 0 or 8, $"{table.Id}: {table.counts.Item3} goals");
        });
    }

    private static void Look(IReadOnlyList<TechniqueAdvice> all, string group, string tree, List<string> left)
    {
        foreach (var technique in Trees.Craft.Techniques)
        {
            if (all.Count(advice => advice.Technique == technique.Id) != 1)
            {
                left.Add($"{technique.Id} answers {all.Count(advice => advice.Technique == technique.Id)} times for {tree}");
                continue;
            }
            var advice = all.Advice(technique.Id);
            Reasoned(technique.Id, advice.Reasons, tree, left);
            var modes = technique.ModesFor(group).Select(mode => mode.Id).OfType<string>().ToList();
            if (modes.Count > 1 && technique.Id != "frost-protection" && !modes.SequenceEqual(advice.Parts.Select(part => part.Mode).Distinct()))
                left.Add($"{technique.Id} answers {string.Join(' ', advice.Parts.Select(part => part.Mode))} for {tree}");
            foreach (var part in advice.Parts)
                Reasoned($"{technique.Id}/{part.Mode}", part.Reasons, tree, left);
        }
    }

    private static void Reasoned(string technique, IReadOnlyList<Reason> reasons, string tree, List<string> left)
    {
        if (reasons.Count == 0 || reasons.Any(reason => string.IsNullOrWhiteSpace(reason.Id) || string.IsNullOrWhiteSpace(reason.Text)))
            left.Add($"{technique} gives no reason for {tree}");
    }

    private static string SpeciesOf(string group) =>
        ShippedCatalog.Content.Species.Values.Where(species => species.Group == group).MinBy(species => species.Id, StringComparer.Ordinal)?.Id
        ?? "juniperus-chinensis";
}
