using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Service.Catalog;

namespace Scheduler.Service.Plans;

/// <summary>
/// The growth clock of one garden: what each species learned here in past springs, and outlooks for trees. Trees of one
/// species on which nothing was seen this season share an outlook.
/// </summary>
public sealed class SpeciesClock
{
    private const int HardenedBbch = 91;
    private readonly CatalogContent _catalog;
    private readonly SiteSeasons _seasons;
    private readonly PlanInputs _inputs;
    private readonly GardenClock _clock;
    private readonly Dictionary<(string Species, GrowthYear Year), GrowthOutlook> _shared = [];

    public SpeciesClock(CatalogContent catalog, SiteSeasons seasons, PlanInputs inputs)
    {
        ArgumentNullException.ThrowIfNull(catalog);
        ArgumentNullException.ThrowIfNull(seasons);
        ArgumentNullException.ThrowIfNull(inputs);
        (_catalog, _seasons, _inputs) = (catalog, seasons, inputs);
        _clock = new GardenClock(seasons.Springs, catalog.GrowthRules, catalog.ClockRules, catalog.Kinship,
            inputs.Trees.Select(tree => tree.SpeciesId).Distinct().Select(id => (catalog.Species[id], SeenOn(catalog.Species[id]))));
    }

    public TreeFacts FactsOf(Tree tree)
    {
        var species = _catalog.Species[tree.SpeciesId];
        var observations = _inputs.Observations[tree.Id].ToList();
        return new TreeFacts(tree, species, [.. _inputs.Work[tree.Id]], observations,
            Outlook(species, _seasons.Current, Seen(observations)),
            Outlook(species, _seasons.Next, Seen(observations)));
    }

    /// <summary>A species' outlook, sharpened by everything seen on it in this garden this season.</summary>
    public GrowthOutlook OfSpecies(Species species, SeasonEnsemble season) => Outlook(species, season, SeenOn(species));

    /// <summary>The site's normal: what this species' season looks like over whole past years.</summary>
    public GrowthOutlook NormalOf(Species species, SeasonEnsemble season)
    {
        ArgumentNullException.ThrowIfNull(season);
        return new GrowthOutlook(season.AsNormal(), _clock.Of(species), []);
    }

    /// <summary>How many past springs have taught the clock about this species here.</summary>
    public int SpringsLearned(Species species) => _clock.Of(species).Springs is var (leaf, flower) ? Math.Max(leaf, flower) : 0;

    /// <summary>True for what was seen on the tree as a whole or on a zone of its first flush.</summary>
    public static bool Teaches(Observation seen)
    {
        ArgumentNullException.ThrowIfNull(seen);
        return seen.Flush is null or 1 && seen.Branch is null;
    }

    /// <summary>Whether a date not yet taken down lies far from what the clock believes of that spring.</summary>
    public DoubtfulDate? Doubt(Species species, int bbch, LocalDate date) => DoubtfulDate.Of(_clock.Of(species), _seasons.Springs, bbch, date);

    private GrowthOutlook Outlook(Species species, SeasonEnsemble season, IReadOnlyList<SeenPhase> seen)
    {
        var now = seen.Where(phase => phase.Date >= season.Year.Turn && phase.Date < season.Year.Next.Turn).ToList();
        if (now.Count > 0)
            return new GrowthOutlook(season, _clock.Of(species), now);
        if (!_shared.TryGetValue((species.Id, season.Year), out var shared))
            _shared[(species.Id, season.Year)] = shared = new GrowthOutlook(season, _clock.Of(species), []);
        return shared;
    }

    private IReadOnlyList<SeenPhase> SeenOn(Species species) =>
        [.. _inputs.Trees.Where(tree => tree.SpeciesId == species.Id).SelectMany(tree => Seen([.. _inputs.Observations[tree.Id]]))];

    // First date each code was seen.
    private List<SeenPhase> Seen(IReadOnlyList<Observation> observations) =>
        [.. observations
            .Where(Teaches)
            .SelectMany(Codes)
            .GroupBy(phase => (phase.Bbch, GrowthYear.Of(phase.Date, _seasons.Current.Year.Hemisphere)))
            .Select(group => group.MinBy(phase => phase.Date)!)];

    private static IEnumerable<SeenPhase> Codes(Observation seen)
    {
        if (seen.Bbch is { } bbch)
            yield return new SeenPhase(bbch, seen.Date);
        if (seen.Hardened == true && seen.Bbch != HardenedBbch)
            yield return new SeenPhase(HardenedBbch, seen.Date);
    }
}
