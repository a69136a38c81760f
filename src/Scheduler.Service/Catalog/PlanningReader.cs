using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Catalog;

/// <summary>Reads how free days are filled.</summary>
internal static class PlanningReader
{
    public const string File = "planning.yaml";

    public static PlanningRules Read(YamlMap map, CraftTerms terms)
    {
        var order = map.Maps("order").Select(step => Step(step, terms)).ToList();
        string[] steps = [.. order.Select(step => step.Step)];
        var named = order.SelectMany(step => step.Work).ToHashSet(StringComparer.Ordinal);
        if (map.Has("order"))
        {
            foreach (var missing in terms.Techniques.Where(technique => !named.Contains(technique)))
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
        map.RefuseUnknownKeys();
        return rules;
    }

    private static DayStep Step(YamlMap map, CraftTerms terms)
    {
        var step = new DayStep(map.Text("step"), map.Texts("work"));
        foreach (var work in step.Work)
            map.CheckKnown("work", work.Split('/')[0], terms.Techniques);
        return step;
    }
}
