using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Catalog;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Plans;

/// <summary>Works out what comes of logged work from the garden as it is now.</summary>
public sealed class WorkPromises(GardenFactsLoader facts, CatalogContent catalog) : IWorkPromises
{
    public async Task<IReadOnlyList<PromiseAnswer>> OfWorkAsync(StoredTree tree, Guid workId, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(tree);
        return await facts.LoadAsync(tree.GardenId, cancel) is { } picture && picture.Trees.FirstOrDefault(one => one.Tree.Id == tree.Tree.Id) is { } known
            ? [.. PromiseFinder.Find(catalog.Craft, known, picture.Garden).Where(promise => promise.Work.Id == workId).Select(promise => PromiseAnswer.Of(promise, known.Tree))]
            : [];
    }
}
