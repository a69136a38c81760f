using BenchmarkDotNet.Attributes;
using NodaTime;
using Scheduler.Benchmarks.Phenology;
using Scheduler.Benchmarks.Support;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Benchmarks.Techniques;

/// <summary>
/// One spring day's advice for a garden of 60 invented trees, every technique: all species in turn, all stages and goals,
/// every fourth tree with its crown zones looked at. The season's dates are known; the judging is timed.
/// </summary>
public class AdviceBenchmark
{
    public const double BarMs = 20;
    public const int TreeCount = 60;

    private const double Latitude = 46;
    private static readonly LocalDate Today = new(2021, 4, 25);
    private TreeFacts[] _trees = [];
    private GardenFacts? _garden;

    public static int TechniqueCount => SeasonBenchmark.Catalog.Craft.Techniques.Count;

    [GlobalSetup]
    public void Setup()
    {
        var years = new MadeYears(new LocalDate(1990, 9, 1), Today.PlusDays(14));
        var site = new SiteWeather(Latitude, Today, new TemperatureSeries(years.Start, years.MinC, years.MaxC));
        SeasonEnsemble current = SeasonEnsemble.Build(site, site.CurrentYear), next = SeasonEnsemble.Build(site, site.CurrentYear.Next);
        var clock = GardenClock.OfCatalog(new SiteSprings(current), SeasonBenchmark.Catalog.GrowthRules, SeasonBenchmark.Catalog.ClockRules);
        var species = SeasonBenchmark.Catalog.Species.Values.OrderBy(one => one.Id, StringComparer.Ordinal).ToArray();
        _trees = [.. Enumerable.Range(0, TreeCount).Select(place => Facts(place, species[place % species.Length]))];
        _garden = new GardenFacts
        {
            Today = Today, Latitude = Latitude, BenchOffsetC = 0, WaterAssured = true, SoilDry = false, FrostFreeShelter = true,
            Days = [.. Enumerable.Range(-14, 24).Select(day => Day(years, Today.PlusDays(day)))]
        };

        TreeFacts Facts(int place, Species kind)
        {
            var tree = new Tree
            {
                Id = Guid.NewGuid(), Name = "An invented tree", SpeciesId = kind.Id, Stage = (TreeStage)(place % 4), Goals = [(Goal)(place % 7)],
                Size = TreeSize.M, Health = Health.Vigorous, RootWorkKnown = true
            };
            Observation[] seen = place % 4 == 0
                ? [Seen(CrownZone.Top, 10), Seen(CrownZone.Middle, 9), Seen(CrownZone.Lower, 7), Seen(CrownZone.Inner, 7)]
                : [];
            return new TreeFacts(
                tree, kind, [], seen, new GrowthOutlook(current, clock.Of(kind), [.. seen.Select(one => new SeenPhase(one.Bbch!.Value, one.Date))]),
                new GrowthOutlook(next, clock.Of(kind), []));
        }
    }

    [Benchmark]
    public int Advice()
    {
        var answers = 0;
        foreach (var tree in _trees)
            answers += Advisor.Advise(SeasonBenchmark.Catalog.Craft, tree, _garden!).Count;
        return answers;
    }

    private static Observation Seen(CrownZone zone, int bbch) => new() { Id = Guid.Empty, Date = Today, CrownZone = zone, Bbch = bbch, Density = 2 };

    private static DayWeather Day(MadeYears years, LocalDate date)
    {
        var day = Math.Min(Period.DaysBetween(years.Start, date), years.MinC.Length - 1);
        return new DayWeather(date, years.MinC[day], years.MaxC[day], 0, 10, null, date <= Today ? DayKind.Observed : DayKind.Forecast);
    }
}
