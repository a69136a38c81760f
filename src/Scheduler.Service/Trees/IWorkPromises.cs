using Scheduler.Service.Storage;

namespace Scheduler.Service.Trees;

/// <summary>Tells what comes of work that was just logged.</summary>
public interface IWorkPromises
{
    Task<IReadOnlyList<PromiseAnswer>> OfWorkAsync(StoredTree tree, Guid workId, CancellationToken cancel = default);
}
