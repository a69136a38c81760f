using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Service.Catalog;

namespace Scheduler.Service.Plans;

/// <summary>
/// The growth clock of one garden: what each species learned here in past years, and outlooks for trees. Trees of one
/// species on which nothing was seen this season share an outlook.
/// </summary>
public sealed class SpeciesClock
{
    private const int HardenedBbch = 91;
    private const double HalfPercent = 50;
    private readonly CatalogContent _catalog;
    private readonly SiteSeasons _seasons;
    private readonly PlanInputs _inputs;
    private readonly GardenClock _clock;
    private readonly Dictionary<string, LocalAutumn> _autumns = [];
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
        var seen = Seen(species, observations);
        return new TreeFacts(tree, species, [.. _inputs.Work[tree.Id]], observations,
            Outlook(species, _seasons.Current, seen, OwnLeafStepCd(species, _seasons.Current, observations)),
            Outlook(species, _seasons.Next, seen))
        {
            DismissedPromises = _inputs.Dismissed[tree.Id].ToHashSet()
        };
    }

    /// <summary>A species' outlook, sharpened by everything seen on it in this garden this season.</summary>
    public GrowthOutlook OfSpecies(Species species, SeasonEnsemble season) => Outlook(species, season, SeenOn(species));

    /// <summary>The site's normal: what this species' season looks like over whole past years.</summary>
    public GrowthOutlook NormalOf(Species species, SeasonEnsemble season)
    {
        ArgumentNullException.ThrowIfNull(season);
        return new GrowthOutlook(season.AsNormal(), _clock.Of(species), [], AutumnOf(species));
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

    private GrowthOutlook Outlook(Species species, SeasonEnsemble season, IReadOnlyList<SeenPhase> seen, double? leafStepCd = null)
    {
        var now = seen.Where(phase => phase.Date >= season.Year.Turn && phase.Date < season.Year.Next.Turn).ToList();
        if (now.Count > 0 || leafStepCd is not null)
        {
            var scale = leafStepCd is null ? null : new GrowthScale(species, _catalog.GrowthRules, leafStepCd);
            return new GrowthOutlook(season, _clock.Of(species), now, AutumnOf(species), scale);
        }
        if (!_shared.TryGetValue((species.Id, season.Year), out var shared))
            _shared[(species.Id, season.Year)] = shared = new GrowthOutlook(season, _clock.Of(species), [], AutumnOf(species));
        return shared;
    }

    private LocalAutumn AutumnOf(Species species)
    {
        if (!_autumns.TryGetValue(species.Id, out var autumn))
            _autumns[species.Id] = autumn = LocalAutumn.Fit(_clock.Of(species).Scale, _seasons.Current.Site, SeenOn(species), _seasons.Current.Year);
        return autumn;
    }

    private IReadOnlyList<SeenPhase> SeenOn(Species species) =>
        [.. _inputs.Trees.Where(tree => tree.SpeciesId == species.Id).SelectMany(tree => Seen(species, [.. _inputs.Observations[tree.Id]]))];

    // First date each code was seen; of closed buds every date, for each says that nothing had begun.
    private List<SeenPhase> Seen(Species species, IReadOnlyList<Observation> observations) =>
        [.. observations
            .Where(Teaches)
            .SelectMany(seen => Codes(species, seen))
            .GroupBy(phase => (phase.Bbch, Year: GrowthYear.Of(phase.Date, _seasons.Current.Year.Hemisphere), Closed: phase.Bbch == 0 ? phase.Date : default))
            .Select(group => group.MinBy(phase => phase.Date)!)];

    // From leaves counted this growth year on first flushes, shoot by shoot.
    private double? OwnLeafStepCd(Species species, SeasonEnsemble season, IReadOnlyList<Observation> observations)
    {
        if (!season.HasWeather)
            return null;
        var counts = observations
            .Where(seen => seen.Flush is null or 1 && seen.LeafCount > 0 && season.Year.Contains(seen.Date) && seen.Date <= season.Site.Today)
            .Select(seen => new LeafCount($"{seen.Branch}/{seen.CrownZone}", seen.Date, seen.LeafCount!.Value));
        var heat = season.Members[0].Heat5Cd;
        return LeafTrack.OwnStepCd(_clock.Of(species).Scale, counts, date => SeasonMember.HeatAt(heat, season.Year.DayOf(date) + 0.5));
    }

    private static IEnumerable<SeenPhase> Codes(Species species, Observation seen)
    {
        // A code that fewer than half of the shoots have reached is not yet the tree's.
        var isReached = seen.Bbch is null || !(seen.ShareOfShootsPercent < HalfPercent);
        if (isReached && (seen.Bbch ?? LeafTrack.CodeOf(seen.LeafCount ?? 0, species.HasOppositeLeaves)) is { } bbch)
            yield return new SeenPhase(bbch, seen.Date);
        if (seen.Hardened == true && seen.Bbch != HardenedBbch)
            yield return new SeenPhase(HardenedBbch, seen.Date);
    }
}
