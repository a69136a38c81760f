using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Catalog;

/// <summary>Everything the catalog folder says, checked. It never changes; a changed folder gives another.</summary>
public sealed class CatalogContent(
    IReadOnlyDictionary<string, Species> species, GrowthRules growthRules, ClockRules clockRules, Craft craft, Kinship kinship)
{
    /// <summary>By id.</summary>
    public IReadOnlyDictionary<string, Species> Species { get; } = species;

    public GrowthRules GrowthRules { get; } = growthRules;

    /// <summary>Settings of the growth clock: shapes of the development index per plant group, and the spreads that weigh evidence.</summary>
    public ClockRules ClockRules { get; } = clockRules;

    public Craft Craft { get; } = craft;

    /// <summary>Which genera are of one family.</summary>
    public Kinship Kinship { get; } = kinship;

    /// <summary>Ids of all techniques that may be logged, asked for or named in a feed; not all have rules yet.</summary>
    public IReadOnlyList<string> TechniqueIds { get; init; } = CraftTerms.AllTechniques;

    /// <summary>Files of the owner's folder that are part of it, by name.</summary>
    public IReadOnlyList<string> OwnFiles { get; init; } = [];

    /// <summary>Rules that can never act; they do no harm, but somebody meant something by them.</summary>
    public IReadOnlyList<CatalogFault> Warnings { get; init; } = [];

    /// <summary>Ids nearest to a text that may be an id, a botanical or a common name.</summary>
    public IReadOnlyList<string> NearestSpecies(string text, int count = 3) => Hosting.NearestIds.Of(text,
        Species.Values.Select(one => (one.Id, (IEnumerable<string>)[one.Id, one.BotanicalName, one.CommonName])), count);
}
