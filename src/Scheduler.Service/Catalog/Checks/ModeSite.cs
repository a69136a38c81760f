using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Catalog.Checks;

/// <summary>One mode of a technique with what its tables let through.</summary>
internal sealed class ModeSite(CatalogContent content, Technique technique, int index)
{
    private readonly TechniqueMode _mode = technique.Modes[index];

    public Craft Craft => content.Craft;
    public string Key => $"modes[{index}]";
    public IReadOnlyCollection<Species> Species { get; } = [.. content.Species.Values];
    public TechniqueMode Mode => _mode;

    public Place At(string key) => new(technique.Id, key);

    public Place? GroupBar(string group) => Bar(technique, group) ?? (IsBar(_mode.Groups, group) ? At($"{Key}.groups.{group}") : null);

    public Place? StageBar(TreeStage stage) =>
        IsBar(technique.Stages, stage) ? At($"stages.{Ids.Of(stage)}") : IsBar(_mode.Stages, stage) ? At($"{Key}.stages.{Ids.Of(stage)}") : null;

    public Place? GoalBar(Goal goal)
    {
        var (table, key) = _mode.Goals.Count > 0 ? (_mode.Goals, $"{Key}.goals") : (technique.Goals, "goals");
        return table.GetValueOrDefault(goal)?.Wish is GoalWish.Barred or GoalWish.FreeGrowth ? At($"{key}.{Ids.Of(goal)}") : null;
    }

    public Place? SpeciesBar(string species) => technique.BarredSpecies.Keys.FirstOrDefault(bar => Matches(bar, species)) is { } found
        ? At($"barredSpecies.{found}") : null;

    /// <summary>A statement is told to every tree, whatever the tables say.</summary>
    public bool IsBarredToo => _mode.IsStatement;

    public IEnumerable<RuleList> Rules()
    {
        yield return List("windows", true, _mode.Windows.Select(rule => rule.For)) with { MustCover = _mode.Windows.Count > 0 && !_mode.IsStatement };
        yield return List("amounts", true, _mode.Amounts.Select(rule => rule.For));
        if (_mode.Repeat is { } repeat)
            yield return List("repeat.most", true, repeat.Most.Select(limit => limit.For));
        yield return List("because", false, _mode.Because.Select(cause => cause.For));
        yield return List("how", false, _mode.How.Select(text => text.For));
        yield return List("cautions", false, _mode.Cautions.Select(text => text.For));
        yield return List("aftercare", false, _mode.Aftercare.Select(text => text.For));
        yield return new RuleList($"{Key}.followUps", false, [.. _mode.FollowUps.Select(rule => new CheckedRule(
            rule.For, rule.Technique is { } target ? [target] : [], rule.On.Any(verdict => verdict is Verdict.NotAllowed or Verdict.Leave)))]);
        yield return new RuleList($"{Key}.fallbacks", true, [.. _mode.Fallbacks.Select(rule => new CheckedRule(rule.For, rule.Techniques, IsBarredToo))]);
    }

    /// <summary>The same question of another technique: where its tables bar a group in every way of doing it.</summary>
    public Place? TargetBar(string id, string group) => Target(id, group, technique => technique.Groups, mode => mode.Groups, "groups", group);

    public Place? TargetBar(string id, TreeStage stage) =>
        Target(id, stage, technique => technique.Stages, mode => mode.Stages, "stages", Ids.Of(stage));

    private Place? Target<T>(
        string id, T row, Func<Technique, IReadOnlyDictionary<T, Cell>> ofTechnique, Func<TechniqueMode, IReadOnlyDictionary<T, Cell>> ofMode, string table, string word)
        where T : notnull
    {
        if (Craft.Find(id) is not { } target)
            return null;
        if (IsBar(ofTechnique(target), row))
            return new Place(id, $"{table}.{word}");
        return target.Modes.All(mode => IsBar(ofMode(mode), row)) ? new Place(id, $"modes[0].{table}.{word}") : null;
    }

    public static bool Matches(string named, string species) =>
        named.EndsWith('-') ? species.StartsWith(named, StringComparison.Ordinal) : named == species;

    private Place? Bar(Technique of, string group) => IsBar(of.Groups, group) ? At($"groups.{group}") : null;

    private static bool IsBar<T>(IReadOnlyDictionary<T, Cell> table, T row) => table.TryGetValue(row, out var cell) && cell.BarReason is not null;

    private RuleList List(string key, bool firstCounts, IEnumerable<AppliesTo> rules) =>
        new($"{Key}.{key}", firstCounts, [.. rules.Select(rule => new CheckedRule(rule, [], IsBarredToo))]);
}
