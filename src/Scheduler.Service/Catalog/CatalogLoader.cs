using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Catalog;

/// <summary>Reads the whole catalog folder, or refuses it with every fault it has.</summary>
public static class CatalogLoader
{
    /// <exception cref="CatalogException">Something in the folder is missing or wrong.</exception>
    public static CatalogContent Load(string folder)
    {
        var faults = new FaultList();
        var files = CatalogFiles.Open(folder, faults);
        YamlMap Single(string name) => files.Single.GetValueOrDefault(name) ?? YamlMap.Mute(name);

        var sentences = Single("reasons.yaml");
        var (reasons, holds, modes) = (CraftReader.Sentences(sentences, "reasons"), CraftReader.Sentences(sentences, "holds"), CraftReader.Sentences(sentences, "modes"));
        sentences.RefuseUnknownKeys();
        var groups = CraftReader.Groups(Single("groups.yaml"));
        var terms = new CraftTerms
        {
            Groups = [.. groups.Keys],
            Species = files.SpeciesIds,
            Reasons = [.. reasons.Keys],
            Holds = [.. holds.Keys],
            Modes = [.. modes.Keys],
            Conditions = ConditionSet.Ids,
            Situations = Situation.Names
        };
        var species = files.Species.Select(new SpeciesReader(terms).Read).ToList();
        var techniques = files.Techniques.Select(new TechniqueReader(terms).Read).ToList();
        var growth = Single("growth.yaml");
        var clock = ClockRulesReader.Read(growth.Map("clock"));
        var growthRules = GrowthRulesReader.Read(growth);
        var thresholds = CraftReader.Thresholds(Single("thresholds.yaml"));
        var kinship = KinshipReader.Read(Single(KinshipReader.File));
        var planning = PlanningReader.Read(Single(PlanningReader.File), terms);
        var loads = CraftReader.Loads(Single("loads.yaml"), terms, techniques);

        if (faults.All is { Count: > 0 } all)
            throw new CatalogException(all);
        var craft = new Craft
        {
            Techniques = techniques,
            Groups = groups,
            Reasons = reasons,
            Holds = holds,
            Modes = modes,
            Loads = loads,
            Thresholds = thresholds,
            Planning = planning
        };
        return new CatalogContent(species.ToDictionary(one => one.Id, StringComparer.Ordinal), growthRules, clock, craft, kinship);
    }
}
