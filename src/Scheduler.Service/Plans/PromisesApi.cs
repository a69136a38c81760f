using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Catalog;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Plans;

/// <summary>What comes of logged work, as promises with dates.</summary>
internal static class PromisesApi
{
    public static async Task<Results<Ok<Page<PromiseAnswer>>, ProblemHttpResult>> OfTreeAsync(
        Guid id, Caller caller, PageRequest page, TreeStore trees, GardenFactsLoader facts, CatalogContent catalog, CancellationToken cancel) =>
        await OfTreeAsync(id, caller, trees, facts, catalog, cancel) is { } promises
            ? TypedResults.Ok(Cut(promises, page))
            : Problems.NotFound();

    public static async Task<Results<Ok<Page<PromiseAnswer>>, ProblemHttpResult>> OfGardenAsync(
        Guid id, string? from, string? to, Caller caller, PageRequest page, GardenStore gardens, GardenFactsLoader facts, CatalogContent catalog,
        CancellationToken cancel)
    {
        if (await gardens.FindAsync(caller.AccountId, id, cancel) is null || await facts.LoadAsync(id, cancel) is not { } picture)
            return Problems.NotFound();
        var faults = new FieldFaults();
        var (first, last) = DaySpan.Read(from, to, faults);
        if (faults.Any)
            return Problems.Invalid(faults);
        return TypedResults.Ok(Cut(picture.Trees.SelectMany(tree => Of(tree, picture, catalog)).Where(FallsIn), page));

        // What has no date yet is told only where no span is asked for.
        bool FallsIn(PromiseAnswer promise) => (last is null || promise.Due.Likely <= last)
            && (first is null || (promise.Due.Late ?? promise.Due.Likely) >= first);
    }

    public static async Task<Results<NoContent, ProblemHttpResult>> DismissAsync(
        Guid id, Guid followUpId, Caller caller, TreeStore trees, GardenFactsLoader facts, CatalogContent catalog, PromiseStore store,
        GardenFollowers followers, IClock clock, CancellationToken cancel)
    {
        if (await trees.FindAsync(caller.AccountId, id, cancel) is not { } tree
            || (await OfTreeAsync(id, caller, trees, facts, catalog, cancel))?.FirstOrDefault(one => one.Id == followUpId) is not { } promise)
        {
            return Problems.NotFound();
        }
        await store.DismissAsync(promise.Id, promise.WorkId, promise.What, promise.Technique, clock.GetCurrentInstant(), cancel);
        await followers.ReplanAsync(tree.GardenId);
        return TypedResults.NoContent();
    }

    private static async Task<IReadOnlyList<PromiseAnswer>?> OfTreeAsync(
        Guid id, Caller caller, TreeStore trees, GardenFactsLoader facts, CatalogContent catalog, CancellationToken cancel) =>
        await trees.FindAsync(caller.AccountId, id, cancel) is { } stored && await facts.LoadAsync(stored.GardenId, cancel) is { } picture
            && picture.Trees.FirstOrDefault(tree => tree.Tree.Id == id) is { } tree
            ? [.. Of(tree, picture, catalog)]
            : null;

    /// <summary>All of one tree, in no order.</summary>
    public static IEnumerable<PromiseAnswer> Of(TreeFacts tree, GardenPicture picture, CatalogContent catalog) =>
        PromiseFinder.Find(catalog.Craft, tree, picture.Garden).Select(promise => PromiseAnswer.Of(promise, tree.Tree));

    private static Page<PromiseAnswer> Cut(IEnumerable<PromiseAnswer> promises, PageRequest page) => page.Cut(
        [.. promises.OrderBy(Cursor, StringComparer.Ordinal).Where(promise => string.CompareOrdinal(Cursor(promise), page.After) > 0).Take(page.Limit + 1)],
        Cursor, promise => promise);

    private static string Cursor(PromiseAnswer promise) => $"{promise.Due.Likely ?? LocalDate.MaxIsoValue:uuuu-MM-dd}_{promise.Id:N}";
}
