namespace Scheduler.Domain.Techniques.Care;

/// <summary>The one way into the care techniques for answers and windows.</summary>
internal static class CareAdvice
{
    private const string FrostProtection = "frost-protection";

    /// <summary>True for techniques that are judged here and not by the steps of hand work.</summary>
    public static bool IsCare(Technique technique) => technique.Care is not null || technique.Id == FrostProtection;

    public static TechniqueAdvice Of(Technique technique, TreeYear year)
    {
        var rule = Rule(technique, year);
        return AdviceWriter.Care(technique, year, rule.Today()) with { Window = rule.Windows().FirstOrDefault(IsAhead) };

        static bool IsAhead(WorkWindow window) => window.State is WindowState.Forecast or WindowState.Open;
    }

    public static IEnumerable<WorkWindow> Windows(TreeYear year) =>
        year.Craft.Care.SelectMany(technique => Rule(technique, year).Windows());

    private static CareRule Rule(Technique technique, TreeYear year) => technique.Care switch
    {
        FeedingRules rules => new Feeding(technique, rules, year),
        HeatShadeRules rules => new HeatShade(technique, rules, year),
        WateringRules rules => new Watering(technique, rules, year),
        StorageRules rules => new WinterStorage(technique, rules, year),
        ScoutingRules rules => new Scouting(technique, rules, year),
        _ => new FrostWatch(technique, year)
    };
}
