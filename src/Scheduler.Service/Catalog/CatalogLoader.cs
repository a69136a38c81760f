using Scheduler.Domain.Planning;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Catalog.Checks;

namespace Scheduler.Service.Catalog;

/// <summary>Reads the whole catalog folder, or refuses it with every fault it has.</summary>
public static class CatalogLoader
{
    /// <exception cref="CatalogException">Something in the folder is missing or wrong.</exception>
    /// <param name="own">The owner's own folder, laid over ours; null: there is none.</param>
    public static CatalogContent Load(string folder, string? own = null)
    {
        var faults = new FaultList();
        var files = CatalogFiles.Open(folder, own, faults);
        YamlMap Single(string name) => files.Single.GetValueOrDefault(name) ?? YamlMap.Mute(name);

        var sentences = Single("reasons.yaml");
        var (reasons, holds, modes) = (CraftReader.Sentences(sentences, "reasons"), CraftReader.Sentences(sentences, "holds"), CraftReader.Sentences(sentences, "modes"));
        sentences.RefuseUnknownKeys();
        var groups = CraftReader.Groups(Single("groups.yaml"));
        var terms = new CraftTerms
        {
            Groups = [.. groups.Keys],
            LikeGroups = groups.Where(group => group.Value.Like is not null).ToDictionary(group => group.Key, group => group.Value.Like!),
            Species = files.SpeciesIds,
            Techniques = [.. CraftTerms.AllTechniques.Union(files.TechniqueIds)],
            Reasons = [.. reasons.Keys],
            Holds = [.. holds.Keys.Except(HoldDays.OfThePlan)],
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
        var settings = PracticeSettingsReader.Read(Single("settings.yaml"));
        var planning = PlanningReader.Read(Single(PlanningReader.File), terms);

        if (faults.All is { Count: > 0 } all)
            throw new CatalogException(all);
        var craft = new Craft
        {
            Techniques = techniques,
            Groups = groups,
            Reasons = reasons,
            Holds = holds,
            Modes = modes,
            Thresholds = thresholds,
            Settings = settings,
            Planning = planning
        };
        var content = new CatalogContent(species.ToDictionary(one => one.Id, StringComparer.Ordinal), growthRules, clock, craft, kinship)
        {
            TechniqueIds = [.. terms.Techniques],
            OwnFiles = files.Own
        };
        // Our own rules are checked by the tests, so that an ordinary start need not wait for it.
        return files.Own.Count == 0 ? content : Checked(content, files.Techniques);
    }

    /// <summary>Refuses rules that contradict each other; rules that can never act become warnings.</summary>
    private static CatalogContent Checked(CatalogContent content, IReadOnlyList<YamlMap> techniques)
    {
        var findings = CraftCheck.Of(content, techniques);
        return findings.Contradictions is { Count: > 0 } contradictions
            ? throw new CatalogException(contradictions)
            : new CatalogContent(content.Species, content.GrowthRules, content.ClockRules, content.Craft, content.Kinship)
            {
                TechniqueIds = content.TechniqueIds,
                OwnFiles = content.OwnFiles,
                Warnings = findings.DeadRules
            };
    }
}
