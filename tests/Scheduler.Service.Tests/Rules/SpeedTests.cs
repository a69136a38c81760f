using System.Diagnostics;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Service.Tests.Catalog;
using Xunit.Abstractions;

namespace Scheduler.Service.Tests.Rules;

public class SpeedTests(ITestOutputHelper output)
{
    [Fact]
    public void GardenOfSixtyTrees_IsAnsweredQuickly()
    {
        var climate = new MadeClimate(47, new LocalDate(2025, 4, 25));
        var site = climate.Site();
        SeasonEnsemble current = SeasonEnsemble.Build(site, site.CurrentYear), next = SeasonEnsemble.Build(site, site.CurrentYear.Next);
        var species = ShippedCatalog.Content.Species.Keys.Order(StringComparer.Ordinal).ToArray();
        // The trees of one species share their outlook, as in a garden without observations.
        var shared = species.ToDictionary(id => id, id => Trees.Facts(Trees.Tree(id, TreeStage.Refinement, Goal.Slender), current, next));
        var trees = Enumerable.Range(0, 60).Select(index =>
        {
            var facts = shared[species[index % species.Length]];
            return facts with { Tree = facts.Tree with { Id = Guid.NewGuid(), Stage = (TreeStage)(index % 4), Goals = [(Goal)(index % 7)] } };
        }).ToList();
        var garden = climate.Garden();
        (double Advice, double Windows) best = (double.MaxValue, double.MaxValue);
        for (var round = 0; round < 5; round++)
        {
            var start = Stopwatch.GetTimestamp();
            foreach (var tree in trees)
                Advisor.Advise(Trees.Craft, tree, garden);
            var advised = Stopwatch.GetTimestamp();
            foreach (var tree in trees)
                WindowFinder.Find(Trees.Craft, tree, garden);
            best = (Math.Min(best.Advice, Stopwatch.GetElapsedTime(start, advised).TotalMilliseconds),
                Math.Min(best.Windows, Stopwatch.GetElapsedTime(advised).TotalMilliseconds));
        }
        output.WriteLine($"60 trees: advice {best.Advice:0.0} ms, windows {best.Windows:0.0} ms");
        // Tens of milliseconds on a quiet machine; the bound only catches a change of kind.
        Assert.True(best.Advice < 1000 && best.Windows < 2000, $"{best}");
    }
}
