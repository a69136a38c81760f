using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Catalog;

/// <summary>Reads the parts that rules of techniques are made of.</summary>
internal sealed class RuleReading(CraftTerms terms)
{
    // Stands in for a trigger that could not be read, until the faults are told.
    private static readonly Trigger NoTrigger = new TextTrigger("unreadable");

    public AppliesTo For(YamlMap map)
    {
        return map.OptionalMap("for") is { } filter ? Trees(filter) : AppliesTo.Every;
    }

    /// <summary>The trees that the entries of a list name without a <c>for</c> of their own.</summary>
    public AppliesTo Trees(YamlMap filter)
    {
        var species = filter.Texts("species");
        foreach (var id in species)
            CheckSpecies(filter, "species", id);
        return new AppliesTo
        {
            Groups = WithAlike(filter.Choices("groups", terms.Groups)),
            Species = species,
            Attributes = filter.Choices("attributes", SpeciesReader.Attributes),
            Stages = filter.Enums<TreeStage>("stages"),
            Goals = filter.Enums<Goal>("goals"),
            Health = filter.Enums<Health>("health"),
            Sizes = filter.Enums<TreeSize>("sizes"),
            Situations = filter.Choices("situations", terms.Situations)
        };
    }

    private IReadOnlyList<string> WithAlike(IReadOnlyList<string> groups) =>
        [.. groups, .. terms.LikeGroups.Where(like => groups.Contains(like.Value) && !groups.Contains(like.Key)).Select(like => like.Key)];

    /// <summary>Reason id by species id.</summary>
    public IReadOnlyDictionary<string, string> BarredSpecies(YamlMap map)
    {
        if (map.OptionalMap("barredSpecies") is not { } barred)
            return new Dictionary<string, string>();
        foreach (var id in barred.Keys)
            CheckSpecies(barred, id, id);
        return barred.Keys.ToDictionary(id => id, id => barred.Choice(id, terms.Reasons), StringComparer.Ordinal);
    }

    public Trigger Trigger(YamlMap map, string key)
    {
        if (OptionalTrigger(map, key) is { } trigger)
            return trigger;
        if (!map.Has(key))
            map.Fault(key, null, "is missing", $"Add '{key}: {{ ... }}' with a trigger.");
        return NoTrigger;
    }

    public Trigger? OptionalTrigger(YamlMap map, string key)
    {
        if (map.Plain(key) is not { } fields)
            return null;
        var (trigger, fault) = TriggerReader.Read(fields);
        if (fault is not null)
            map.Fault(key, null, $"is no trigger: {fault}", "Write one of the forms explained in the technique files.");
        return trigger;
    }

    public IReadOnlyList<TextRule> Sentences(YamlMap map, string key) =>
        [.. map.TextsOrMaps(key).Select(entry => entry.Map is { } rule ? new TextRule(For(rule), rule.Text("text")) : new TextRule(AppliesTo.Every, entry.Text ?? ""))];

    /// <summary>A table group x technique; once there is one, it must speak of every group.</summary>
    public IReadOnlyDictionary<string, Cell> GroupCells(YamlMap map) =>
        Table(map, "groups", terms.Groups, code => code, Cell, terms.LikeGroups);

    public IReadOnlyDictionary<TreeStage, Cell> StageCells(YamlMap map) =>
        Table(map, "stages", EnumWords<TreeStage>.All, word => EnumWords<TreeStage>.ByWord[word], Cell);

    public IReadOnlyDictionary<Goal, GoalCell> GoalCells(YamlMap map) =>
        Table(map, "goals", EnumWords<Goal>.All, word => EnumWords<Goal>.ByWord[word], GoalCell);

    public IReadOnlyList<string> Conditions(YamlMap map) => map.Choices("conditions", terms.Conditions);

    public WorkLoad Load(YamlMap map) => new(map.Whole("whole", 0, 3), map.Whole("part", 0, 3), map.Origin().Provenance)
    {
        LeafAreaPercent = map.OptionalNumber("leafAreaPercent", 0, 100) ?? 0,
        Light = map.OptionalWhole("light", 0, 3),
        HeavyFor = [.. map.Maps("heavyFor").Select(Trees)]
    };

    /// <summary>A beginning such as <c>ilex-</c> may stand for species that the catalog does not have yet.</summary>
    private void CheckSpecies(YamlMap map, string key, string id)
    {
        if (!id.EndsWith('-'))
            map.CheckKnown(key, id, terms.Species);
    }

    private static Dictionary<TKey, TCell> Table<TKey, TCell>(
        YamlMap map, string key, IReadOnlyCollection<string> words, Func<string, TKey> toKey, Func<YamlMap, string, TCell> read,
        IReadOnlyDictionary<string, string>? alike = null) where TKey : notnull
    {
        var table = new Dictionary<TKey, TCell>();
        if (map.OptionalMap(key) is not { } rows)
            return table;
        if (words.Count == 0)
            rows.PlainAll();
        foreach (var word in words)
        {
            if (rows.Has(word))
                table[toKey(word)] = read(rows, word);
            else if (alike?.GetValueOrDefault(word) is { } other && rows.Has(other))
                table[toKey(word)] = read(rows, other);
            else
                rows.Fault(word, null, "is missing", "A table speaks of all or is left out; add it.");
        }
        return table;
    }

    private Cell Cell(YamlMap rows, string word)
    {
        if (rows.Text(word) is not { Length: > 0 } text)
            return Domain.Techniques.Cell.Yes;
        var cell = Domain.Techniques.Cell.Parse(text);
        if (cell.BarReason is { } reason)
            rows.CheckKnown(word, reason, terms.Reasons);
        foreach (var condition in cell.Conditions)
            rows.CheckKnown(word, condition, terms.Conditions);
        return cell;
    }

    private GoalCell GoalCell(YamlMap rows, string word)
    {
        if (rows.Text(word) is not { Length: > 0 } text)
            return Domain.Techniques.GoalCell.Neutral;
        var cell = Domain.Techniques.GoalCell.Parse(text);
        if (cell is null)
            rows.Fault(word, text, "is not a cell of a goal", "Write wanted, neutral, rivals, 'free: reason-id' or 'no: reason-id'.");
        else if (cell.Reason is { } reason)
            rows.CheckKnown(word, reason, terms.Reasons);
        return cell ?? Domain.Techniques.GoalCell.Neutral;
    }
}
