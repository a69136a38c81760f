using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Catalog;

/// <summary>Reads one mode of a technique: its windows, how much, how, and what follows.</summary>
internal sealed class ModeReader(CraftTerms terms)
{
    private readonly RuleReading _rules = new(terms);

    public TechniqueMode Read(YamlMap map) => new()
    {
        Id = map.OptionalChoice("id", terms.Modes),
        Title = map.Text("title"),
        IsStatement = map.Flag("isStatement"),
        RoundAgain = map.Flag("roundAgain"),
        AsNeeded = map.Flag("asNeeded"),
        Relieves = map.Flag("relieves"),
        Groups = _rules.GroupCells(map),
        Stages = _rules.StageCells(map),
        Goals = _rules.GoalCells(map),
        RootWork = TechniqueReader.RootWork(map),
        Conditions = _rules.Conditions(map),
        Load = map.OptionalMap("load") is { } load ? _rules.Load(load) : null,
        Windows = [.. map.Maps("windows").Select(Window)],
        Repeat = map.OptionalMap("repeat") is { } repeat ? Repeat(repeat) : null,
        Gaps = [.. map.Maps("gaps").Select(gap => new GapRule(gap.Choices("after", terms.Techniques), _rules.Trigger(gap, "until"), gap.Origin().Provenance))],
        LastDaysToFrost = map.OptionalWhole("lastDaysToFrost", 0, 365),
        LeastDensity = map.OptionalWhole("leastDensity", 0, 3),
        LimitsProvenance = map.OptionalEnum<Provenance>("limitsProvenance") ?? Provenance.CommonPractice,
        Holds = Holds(map),
        Because = [.. map.Maps("because").Select(cause => new CauseRule(cause.Choice("reason", terms.Reasons), _rules.For(cause)))],
        Amounts = [.. map.Maps("amounts").Select(Amount)],
        How = _rules.Sentences(map, "how"),
        Cautions = _rules.Sentences(map, "cautions"),
        Aftercare = _rules.Sentences(map, "aftercare"),
        FollowUps = [.. map.Maps("followUps").Select(FollowUp)],
        Fallbacks = [.. map.Maps("fallbacks").Select(Fallback)],
        Effort = Effort(map.Map("effort"))
    };

    private WindowRule Window(YamlMap map)
    {
        var (provenance, source) = map.Origin();
        return new WindowRule
        {
            For = _rules.For(map),
            Opens = _rules.Trigger(map, "opens"),
            Closes = _rules.OptionalTrigger(map, "closes"),
            Again = [.. map.Maps("again").Select(again => new Opening(_rules.Trigger(again, "opens"), _rules.OptionalTrigger(again, "closes")))],
            Provenance = provenance,
            Source = source
        };
    }

    private IReadOnlyList<HoldRule> Holds(YamlMap map) => [.. map.TextsOrMaps("holds").Select(entry => Hold(map, entry.Text, entry.Map))];

    private HoldRule Hold(YamlMap map, string? text, YamlMap? rule)
    {
        if (rule is not null)
            return new HoldRule(rule.Choice("hold", terms.Holds), _rules.For(rule), rule.OptionalText("only"));
        map.CheckKnown("holds", text ?? "", terms.Holds);
        return new HoldRule(text ?? "", AppliesTo.Every);
    }

    private RepeatRule Repeat(YamlMap map) => new()
    {
        Opens = _rules.Trigger(map, "opens"),
        Closes = _rules.OptionalTrigger(map, "closes"),
        OnlyAfterLogged = map.Flag("onlyAfterLogged"),
        Most = [.. map.Maps("most").Select(limit => new PassLimit(_rules.For(limit), limit.Whole("passes", 1, 20)))],
        Provenance = map.Origin().Provenance
    };

    private AmountRule Amount(YamlMap map)
    {
        var entries = map.Maps("entries").Select(entry => Facts(map, entry)).ToList();
        return new AmountRule(_rules.For(map), entries, map.Text("text"), map.Origin().Provenance);
    }

    private static IReadOnlyDictionary<string, object> Facts(YamlMap map, YamlMap entry)
    {
        var facts = entry.PlainAll();
        foreach (var (name, _) in facts.Where(fact => fact.Value is null))
            map.Fault("entries", name, "has no value", "Write a value or leave the name out.", entry.Line);
        return facts.Where(fact => fact.Value is not null).ToDictionary(fact => fact.Key, fact => fact.Value!, StringComparer.Ordinal);
    }

    private FollowUpRule FollowUp(YamlMap map)
    {
        var on = map.Enums<Verdict>("on");
        var rule = new FollowUpRule(
            _rules.For(map),
            on.Count > 0 ? on : [Verdict.DoNow, Verdict.Wait],
            map.Text("what"),
            _rules.Trigger(map, "when"),
            map.OptionalChoice("technique", terms.Techniques),
            map.Text("text"),
            map.Origin().Provenance)
        {
            AnsweredBy = map.Choices("answeredBy", AnswerFields.Names)
        };
        return map.OptionalChoice("kind", Ids.All<FollowUpKind>()) is { } kind && Ids.TryParse<FollowUpKind>(kind, out var known) ? rule with { Kind = known } : rule;
    }

    private FallbackRule Fallback(YamlMap map) =>
        new(_rules.For(map), map.Choices("techniques", terms.Techniques), _rules.OptionalTrigger(map, "when"), map.Text("text"))
        {
            Provenance = map.OptionalEnum<Provenance>("provenance") ?? Provenance.CommonPractice
        };

    private static EffortRule Effort(YamlMap map)
    {
        var minutes = map.Map("minutes");
        var people = map.OptionalMap("people");
        return new EffortRule
        {
            Minutes = EnumWords<TreeSize>.ByWord.ToDictionary(size => size.Value, size => minutes.Whole(size.Key, 0, 2000)),
            Sessions = Sessions(map),
            People = people is null ? new Dictionary<TreeSize, string>()
                : EnumWords<TreeSize>.ByWord.Where(size => people.Has(size.Key)).ToDictionary(size => size.Value, size => people.Text(size.Key)),
            Provenance = map.Origin().Provenance
        };
    }

    private static Sessions? Sessions(YamlMap map)
    {
        var span = map.Texts("sessions");
        if (span.Count == 0)
            return null;
        if (span.Count == 2 && int.TryParse(span[0], out var low) && int.TryParse(span[1], out var high) && low >= 1 && high >= low)
            return new Sessions(low, high);
        map.Fault("sessions", string.Join(", ", span), "is not a span of sessions", "Write the fewest and the most, such as [1, 3].");
        return null;
    }
}
