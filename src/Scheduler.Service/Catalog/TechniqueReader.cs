using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Catalog;

/// <summary>Reads one file of <c>techniques/</c>.</summary>
internal sealed class TechniqueReader(CraftTerms terms)
{
    private static readonly string[] Seasons = ["next-spring", "next-season"];

    private readonly RuleReading _rules = new(terms);
    private readonly ModeReader _modes = new(terms);
    private readonly CareReader _care = new(terms);

    public Technique Read(YamlMap map)
    {
        var technique = new Technique
        {
            Id = map.Choice("id", terms.Techniques),
            Name = map.Text("name"),
            Purpose = map.Text("purpose"),
            Groups = _rules.GroupCells(map),
            Stages = _rules.StageCells(map),
            Goals = _rules.GoalCells(map),
            BarredSpecies = _rules.BarredSpecies(map),
            RootWork = RootWork(map) ?? RootWorkRule.Passes,
            Conditions = _rules.Conditions(map),
            BarredUntil = map.Choice("barredUntil", Seasons),
            AlsoWanted = [.. map.Maps("alsoWanted").Select(_rules.Trees)],
            IsWholeTree = map.Flag("wholeTree"),
            IsGreenWork = map.Flag("greenWork"),
            ForcesGrowth = map.Flag("forcesGrowth"),
            Load = _rules.Load(map.Map("load")),
            Modes = [.. map.Maps("modes").Select(_modes.Read)],
            Care = _care.Read(map)
        };
        if (technique.Modes.Count == 0)
            map.Fault("modes", null, "lists no mode", "Add at least one entry; a technique without modes has one without id.");
        if (technique.Modes.Count > 1 && technique.Modes.Any(mode => mode.Id is null))
            map.Fault("modes", null, "holds a mode without id beside others", "Give each of several modes its id.");
        map.RefuseUnknownKeys();
        return technique;
    }

    internal static RootWorkRule? RootWork(YamlMap map) => map.OptionalMap("rootWork") is not { } rule ? null : new RootWorkRule(
        rule.Enum<RootWorkEffect>("light"), rule.Enum<RootWorkEffect>("normal"), rule.Enum<RootWorkEffect>("hard"), rule.Flag("hardBarsNextSeason"));
}
