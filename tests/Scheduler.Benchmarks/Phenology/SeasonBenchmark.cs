using BenchmarkDotNet.Attributes;
using NodaTime;
using Scheduler.Benchmarks.Support;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Weather;
using Scheduler.Service.Catalog;

namespace Scheduler.Benchmarks.Phenology;

/// <summary>
/// One cell on a spring day: from two stored arrays of daily extremes to the early, likely and late date of every phase of
/// every species, over 30 ensemble members.
/// </summary>
public class SeasonBenchmark
{
    public const double BarMs = 15;
    public const int Members = 30;
    public const int AllSpecies = 46;

    private const double Latitude = 46;
    private static readonly LocalDate Today = new(2021, 3, 10);
    internal static readonly CatalogContent Catalog = CatalogLoader.Load(ConfigFolder());
    private readonly MadeYears _years = new(new LocalDate(1990, 9, 1), Today.PlusDays(14));
    private Species[] _species = [];

    [Params(12, AllSpecies)]
    public int SpeciesCount { get; set; }

    /// <summary>Takes species evenly from the whole catalog, so that a part has the same mix.</summary>
    [GlobalSetup]
    public void Setup()
    {
        var all = Catalog.Species.Values.OrderBy(species => species.Id, StringComparer.Ordinal).ToArray();
        if (all.Length < SpeciesCount)
            throw new InvalidOperationException($"The catalog has {all.Length} species, fewer than {SpeciesCount}.");
        _species = [.. Enumerable.Range(0, SpeciesCount).Select(place => all[place * all.Length / SpeciesCount])];
        if (Season().Members.Count != Members)
            throw new InvalidOperationException($"The season has {Season().Members.Count} members, not {Members}.");
    }

    [Benchmark]
    public SeasonEnsemble Season()
    {
        var days = new TemperatureSeries(_years.Start, _years.MinC, _years.MaxC);
        var site = new SiteWeather(Latitude, Today, days);
        return SeasonEnsemble.Build(site, site.CurrentYear);
    }

    [Benchmark]
    public int PhaseDates()
    {
        var season = Season();
        var clock = GardenClock.OfCatalog(new SiteSprings(season), Catalog.GrowthRules, Catalog.ClockRules);
        var expected = 0;
        foreach (var species in _species)
        {
            var outlook = new GrowthOutlook(season, clock.Of(species), []);
            foreach (var phase in species.Phases)
                expected += outlook.Band(phase.Bbch).IsExpected ? 1 : 0;
        }
        return expected;
    }

    private static string ConfigFolder()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            var config = Path.Combine(folder.FullName, "config");
            if (Directory.Exists(Path.Combine(config, "species")))
                return config;
        }
        throw new DirectoryNotFoundException("No config folder with species above the benchmarks.");
    }
}
