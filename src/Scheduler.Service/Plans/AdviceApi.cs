using Microsoft.AspNetCore.Http.HttpResults;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Catalog;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Plans;

/// <summary>What a careful teacher would say of one tree today.</summary>
internal static class AdviceApi
{
    public static async Task<Results<Ok<AdviceAnswer>, ProblemHttpResult>> AdviceAsync(
        Guid id, Caller caller, TreeStore trees, GardenFactsLoader facts, WindowStore windows, CatalogContent catalog, CancellationToken cancel)
    {
        if (await trees.FindAsync(caller.AccountId, id, cancel) is not { } stored
            || await facts.LoadAsync(stored.GardenId, cancel) is not { } picture
            || picture.Trees.FirstOrDefault(tree => tree.Tree.Id == id) is not { } tree)
        {
            return Problems.NotFound();
        }
        return TypedResults.Ok(Of(tree, picture, catalog, await windows.OfGardenAsync(stored.GardenId, cancel)));
    }

    /// <summary>The same for whoever has the garden's picture at hand.</summary>
    public static AdviceAnswer Of(TreeFacts tree, GardenPicture picture, CatalogContent catalog, IReadOnlyList<StoredWindow> windows)
    {
        var due = PromiseFinder.Find(catalog.Craft, tree, picture.Garden).Where(promise => promise.State is PromiseState.Due or PromiseState.Overdue)
            .ToLookup(promise => promise.Technique ?? promise.Work.Technique, promise => PromiseAnswer.Of(promise, tree.Tree));
        var announced = windows.Where(window => window.Key.TreeId == tree.Tree.Id).ToDictionary(window => window.Key);
        return new AdviceAnswer(picture.Today,
            [.. Advisor.Advise(catalog.Craft, tree, picture.Garden).Select(advice => TechniqueAnswer.Of(advice, Window(advice, announced)) with
            {
                Promised = [.. due[advice.Technique]]
            })]);
    }

    private static WindowAnswer? Window(TechniqueAdvice advice, Dictionary<WindowKey, StoredWindow> announced) =>
        advice.Window is { } window && announced.TryGetValue(window.Key, out var stored) ? WindowAnswer.Of(stored) : null;
}
