using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Catalog;

/// <summary>Reads how free days are filled.</summary>
internal static class PlanningReader
{
    public const string File = "planning.yaml";
    private const int MostDays = 366;

    public static PlanningRules Read(YamlMap map, CraftTerms terms)
    {
        var order = map.Maps("order").Select(step => Step(step, terms)).ToList();
        string[] steps = [.. order.Select(step => step.Step)];
        var named = order.SelectMany(step => step.Work).ToHashSet(StringComparer.Ordinal);
        if (map.Has("order"))
        {
            // Techniques of the owner come last unless the owner places them.
            foreach (var missing in CraftTerms.AllTechniques.Where(technique => !named.Contains(technique)))
                map.Fault("order", missing, "has no place in a day", $"Add {missing} to the step it belongs to.");
        }
        var rules = CraftReader.Figures<PlanningRules>(map) with
        {
            Order = order,
            RootSteps = map.Choices("rootSteps", steps),
            LeafSteps = map.Choices("leafSteps", steps),
            WoundSteps = map.Choices("woundSteps", steps),
            CareWork = map.Choices("careWork", terms.Techniques)
        };
        AtLeastOne(map, "horizonDays", rules.HorizonDays);
        if (rules.HorizonDays.Value > MostDays)
            map.Fault("horizonDays", null, "is longer than a year", $"Write a number from 1 to {MostDays}.");
        AtLeastOne(map, "unknownMinutes", rules.UnknownMinutes);
        AtLeastOne(map, "learnFromSessions", rules.LearnFromSessions);
        AtLeastOne(map, "worthNone", rules.WorthNone);
        AtLeastOne(map, "worthLight", rules.WorthLight);
        AtLeastOne(map, "worthMedium", rules.WorthMedium);
        AtLeastOne(map, "worthHeavy", rules.WorthHeavy);
        AtLeastOne(map, "worthCare", rules.WorthCare);
        AtLeastOne(map, "nextVisitPercent", rules.NextVisitPercent);
        map.RefuseUnknownKeys();
        return rules;
    }

    // A figure that is missing or below 0 has been told of already.
    private static void AtLeastOne(YamlMap map, string key, Figure figure)
    {
        if (map.Has(key) && figure.Value is >= 0 and < 1)
            map.Fault(key, null, "is below 1", "Write a number from 1 on.");
    }

    private static DayStep Step(YamlMap map, CraftTerms terms)
    {
        var step = new DayStep(map.Text("step"), map.Texts("work"));
        foreach (var work in step.Work)
            map.CheckKnown("work", work.Split('/')[0], terms.Techniques);
        return step;
    }
}
