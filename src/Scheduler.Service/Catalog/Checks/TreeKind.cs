using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Catalog.Checks;

/// <summary>A kind of tree as far as the rules of a list tell trees apart. Situations change from day to day and are left open.</summary>
/// <param name="Species">Null: a group of which the catalog has no species.</param>
internal sealed record TreeKind(Species? Species, string Group, TreeStage Stage, IReadOnlyList<Goal> Goals, Health Health, TreeSize Size)
{
    /// <summary>All kinds that the tables let through, or all kinds there are.</summary>
    public static List<TreeKind> All(ModeSite site, RuleList list, bool barredToo)
    {
        var rules = list.Rules.Select(rule => rule.For).ToList();
        var plants = Plants(site, barredToo);
        if (rules.TrueForAll(rule => rule.Species.Count == 0))
            plants = [.. plants.DistinctBy(plant => (plant.Group, plant.Species is { } species ? string.Join(' ', species.Attributes.Order(StringComparer.Ordinal)) : null))];
        var stages = Told(rules.Exists(rule => rule.Stages.Count > 0), Enum.GetValues<TreeStage>().Where(stage => barredToo || site.StageBar(stage) is null));
        var healths = Told(rules.Exists(rule => rule.Health.Count > 0 || rule.Goals.Count > 0), Enum.GetValues<Health>().OrderDescending());
        var sizes = Told(rules.Exists(rule => rule.Sizes.Count > 0), Enum.GetValues<TreeSize>());
        var goals = Wishes(site, rules, barredToo);
        return
        [
            .. from plant in plants
               from stage in stages
               from health in healths
               from wanted in goals
               where wanted.Contains(Goal.Recover) ? wanted.Count == 1 : health > Health.Weak
               from size in sizes
               select new TreeKind(plant.Species, plant.Group, stage, wanted, health, size)
        ];
    }

    /// <summary>The rule fits it in some situation.</summary>
    public bool Fits(AppliesTo rule) =>
        Has(rule.Groups, Group)
        && (Species is null
            || (rule.Species.Count == 0 || rule.Species.Any(named => ModeSite.Matches(named, Species.Id)))
            && (rule.Attributes.Count == 0 || rule.Attributes.Any(Species.Attributes.Contains)))
        && Has(rule.Stages, Stage)
        && (rule.Goals.Count == 0 || rule.Goals.Any(Goals.Contains))
        && Has(rule.Health, Health)
        && Has(rule.Sizes, Size);

    /// <summary>The same, and no species of the kind's group is left out.</summary>
    public bool AlwaysFits(AppliesTo rule) => Fits(rule) && (Species is not null || rule.Species.Count == 0 && rule.Attributes.Count == 0);

    private static List<(Species? Species, string Group)> Plants(ModeSite site, bool barredToo)
    {
        var plants = site.Species.Select(species => ((Species?)species, species.Group)).ToList();
        plants.AddRange(site.Craft.Groups.Keys.Where(code => plants.TrueForAll(plant => plant.Group != code)).Select(code => ((Species?)null, code)));
        return [.. plants.Where(plant => barredToo || site.GroupBar(plant.Item2) is null && (plant.Item1 is null || site.SpeciesBar(plant.Item1.Id) is null))];
    }

    private static List<IReadOnlyList<Goal>> Wishes(ModeSite site, List<AppliesTo> rules, bool barredToo)
    {
        var open = Enum.GetValues<Goal>().Where(goal => barredToo || site.GoalBar(goal) is null).ToList();
        if (!rules.Exists(rule => rule.Goals.Count > 0))
            return [.. open.Where(goal => goal != Goal.Recover).Take(1).Select(goal => (IReadOnlyList<Goal>)[goal])];
        var pairs = from first in open from second in open where first < second select (IReadOnlyList<Goal>)[first, second];
        return [.. open.Select(goal => (IReadOnlyList<Goal>)[goal]), .. pairs];
    }

    // What no rule of the list asks for need not be told apart.
    private static List<T> Told<T>(bool isAsked, IEnumerable<T> all) => isAsked ? [.. all] : [.. all.Take(1)];

    private static bool Has<T>(IReadOnlyList<T> list, T value) => list.Count == 0 || list.Contains(value);
}
