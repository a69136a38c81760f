using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;
using Scheduler.Service.Tests.Catalog;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Builds invented trees with the shipped catalog and puts them into a made season.</summary>
internal static class Trees
{
    public static Craft Craft => ShippedCatalog.Content.Craft;

    public static Tree Tree(string species, TreeStage stage, params Goal[] goals) => new()
    {
        Id = new Guid(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11),
        Name = "An invented tree",
        SpeciesId = species,
        Stage = stage,
        Goals = goals,
        Size = TreeSize.M,
        Health = Health.Vigorous,
        RootWorkKnown = true
    };

    public static WorkRecord Work(string technique, LocalDate date) => new() { Id = Guid.Empty, Technique = technique, Date = date };

    public static Observation Seen(LocalDate date) => new() { Id = Guid.Empty, Date = date };

    public static TreeFacts Facts(Tree tree, SiteWeather site, IReadOnlyList<WorkRecord>? work = null, IReadOnlyList<Observation>? seen = null)
    {
        var year = site.CurrentYear;
        return Facts(tree, SeasonEnsemble.Build(site, year), SeasonEnsemble.Build(site, year.Next), work, seen);
    }

    public static TreeFacts Facts(
        Tree tree, SeasonEnsemble current, SeasonEnsemble next, IReadOnlyList<WorkRecord>? work = null, IReadOnlyList<Observation>? seen = null)
    {
        var species = ShippedCatalog.Content.Species[tree.SpeciesId];
        var clock = GardenClock.OfCatalog(new SiteSprings(current), ShippedCatalog.Content.GrowthRules, ShippedCatalog.Content.ClockRules).Of(species);
        var phases = (seen ?? []).Where(one => one.Bbch is not null).GroupBy(one => one.Bbch!.Value)
            .Select(same => new SeenPhase(same.Key, same.Min(one => one.Date)));
        return new TreeFacts(
            tree, species, work ?? [], seen ?? [],
            new GrowthOutlook(current, clock, phases),
            new GrowthOutlook(next, clock, []));
    }

    /// <summary>A garden whose bench minima and maxima are given from tonight and today on; the bench is measured, offset 0.</summary>
    public static GardenFacts Garden(MadeSeason season, double[]? nightMinC = null, double[]? maxC = null)
    {
        nightMinC ??= [10, 10, 10, 10, 10];
        maxC ??= [20, 20, 20, 20, 20];
        var days = new List<DayWeather>();
        for (var day = -14; day <= Math.Max(nightMinC.Length, maxC.Length - 1); day++)
        {
            var made = season.Day(season.Today.PlusDays(day));
            var min = day >= 1 && day <= nightMinC.Length ? nightMinC[day - 1] : Math.Max(made.MinC, 3);
            var max = day >= 0 && day < maxC.Length ? maxC[day] : Math.Max(made.MaxC, min + 5);
            days.Add(new DayWeather(season.Today.PlusDays(day), min, Math.Max(max, min), 0, 10, null, day <= 0 ? DayKind.Observed : DayKind.Forecast));
        }
        return new GardenFacts
        {
            Today = season.Today, Latitude = season.Latitude, Days = days, BenchOffsetC = 0,
            WaterAssured = true, SoilDry = false, FrostFreeShelter = true
        };
    }

    public static TechniqueAdvice Advice(this IEnumerable<TechniqueAdvice> all, string technique) => all.Single(one => one.Technique == technique);
}
