using Scheduler.Domain.Trees;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Trees;

/// <summary>Asks back when what was reported can hardly be.</summary>
public interface IObservationJudge
{
    /// <summary>A question to the owner, to be asked before the observation is stored; null: nothing speaks against it.</summary>
    Task<string?> QuestionAsync(StoredTree tree, Observation seen, CancellationToken cancel = default);
}
