namespace Scheduler.Service.Feeds;

/// <summary>Builds the stored bytes of feeds. Polls serve these bytes and compute nothing.</summary>
public interface IFeedBuilder
{
    Task RebuildForGardenAsync(Guid gardenId, CancellationToken cancel = default);

    Task RebuildAsync(Guid feedId, CancellationToken cancel = default);
}
