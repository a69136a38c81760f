using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Service.Catalog;

namespace Scheduler.Service.Plans;

/// <summary>
/// The growth clock of one garden: what each species learned here in past springs, and outlooks for trees. Trees of one
/// species on which nothing was seen this season share an outlook.
/// </summary>
public sealed class SpeciesClock(CatalogContent catalog, SiteSeasons seasons, PlanInputs inputs)
{
    private const int HardenedBbch = 91;
    private readonly Dictionary<string, Learned> _learned = [];

    public TreeFacts FactsOf(Tree tree)
    {
        var species = catalog.Species[tree.SpeciesId];
        var observations = inputs.Observations[tree.Id].ToList();
        var seen = Seen(species, observations);
        return new TreeFacts(tree, species, [.. inputs.Work[tree.Id]], observations,
            Outlook(species, seasons.Current, seen, OwnLeafStepCd(species, seasons.Current, observations)),
            Outlook(species, seasons.Next, seen));
    }

    /// <summary>A species' outlook, sharpened by everything seen on it in this garden this season.</summary>
    public GrowthOutlook OfSpecies(Species species, SeasonEnsemble season) => Outlook(species, season, SeenOn(species));

    /// <summary>The site's normal: what this species' season looks like over whole past years.</summary>
    public GrowthOutlook NormalOf(Species species, SeasonEnsemble season)
    {
        var learned = LearnedOf(species);
        return new GrowthOutlook(season.AsNormal(), learned.Scale, learned.Leaf, learned.Flower, [], learned.Autumn);
    }

    /// <summary>How many dates of past springs have taught the clock about this species here.</summary>
    public int SpringsLearned(Species species) => Math.Max(LearnedOf(species).Leaf.Springs, LearnedOf(species).Flower.Springs);

    private GrowthOutlook Outlook(Species species, SeasonEnsemble season, IReadOnlyList<SeenPhase> seen, double? leafStepCd = null)
    {
        var learned = LearnedOf(species);
        var now = seen.Where(phase => phase.Date >= season.Year.Turn && phase.Date < season.Year.Next.Turn).ToList();
        var scale = leafStepCd is null ? learned.Scale : new GrowthScale(species, catalog.GrowthRules, leafStepCd);
        if (now.Count > 0 || leafStepCd is not null)
            return new GrowthOutlook(season, scale, learned.Leaf, learned.Flower, now, learned.Autumn);
        if (!learned.Shared.TryGetValue(season.Year, out var shared))
            learned.Shared[season.Year] = shared = new GrowthOutlook(season, learned.Scale, learned.Leaf, learned.Flower, [], learned.Autumn);
        return shared;
    }

    private Learned LearnedOf(Species species)
    {
        if (_learned.TryGetValue(species.Id, out var learned))
            return learned;
        var scale = new GrowthScale(species, catalog.GrowthRules);
        var seen = SeenOn(species);
        var site = seasons.Current.Site;
        learned = new Learned(
            scale,
            LocalThreshold.Fit(scale, site, seen.Where(phase => !GrowthScale.IsFlowerCode(phase.Bbch)), seasons.Current.Year),
            LocalThreshold.Fit(scale, site, seen.Where(phase => GrowthScale.IsFlowerCode(phase.Bbch)), seasons.Current.Year),
            LocalAutumn.Fit(scale, site, seen, seasons.Current.Year),
            []);
        return _learned[species.Id] = learned;
    }

    private List<SeenPhase> SeenOn(Species species) =>
        [.. inputs.Trees.Where(tree => tree.SpeciesId == species.Id).SelectMany(tree => Seen(species, [.. inputs.Observations[tree.Id]]))];

    // First date each code was seen on the whole tree or any zone of its first flush.
    private List<SeenPhase> Seen(Species species, IReadOnlyList<Observation> observations) =>
        [.. observations
            .Where(seen => seen.Flush is null or 1 && seen.Branch is null)
            .SelectMany(seen => Codes(species, seen))
            .GroupBy(phase => (phase.Bbch, GrowthYear.Of(phase.Date, seasons.Current.Year.Hemisphere)))
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
        return LeafTrack.OwnStepCd(LearnedOf(species).Scale, counts, date => SeasonMember.HeatAt(heat, season.Year.DayOf(date) + 0.5));
    }

    private static IEnumerable<SeenPhase> Codes(Species species, Observation seen)
    {
        if ((seen.Bbch ?? LeafTrack.CodeOf(seen.LeafCount ?? 0, species.HasOppositeLeaves)) is { } bbch)
            yield return new SeenPhase(bbch, seen.Date);
        if (seen.Hardened == true && seen.Bbch != HardenedBbch)
            yield return new SeenPhase(HardenedBbch, seen.Date);
    }

    private sealed record Learned(GrowthScale Scale, LocalThreshold Leaf, LocalThreshold Flower, LocalAutumn Autumn, Dictionary<GrowthYear, GrowthOutlook> Shared);
}
