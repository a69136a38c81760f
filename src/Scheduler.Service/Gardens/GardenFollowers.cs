using Dapper;
using Scheduler.Service.Feeds;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Gardens;

/// <summary>
/// What has to follow a change of a garden or its trees before the owner is answered. It runs to the end even if the client hangs up:
/// the change is stored by then.
/// </summary>
public sealed class GardenFollowers(IGardenPlanner planner, IGardenWeather weather, IFeedBuilder feeds, Database database)
{
    public Task ReplanAsync(Guid gardenId) => planner.ReplanAsync(gardenId, CancellationToken.None);

    public async Task AttachAndReplanAsync(Guid gardenId)
    {
        await weather.AttachAsync(gardenId, CancellationToken.None);
        await planner.ReplanAsync(gardenId, CancellationToken.None);
    }

    /// <param name="except">Gardens that were planned a moment ago.</param>
    public async Task ReplanAllAsync(Guid accountId, IReadOnlyCollection<Guid> except)
    {
        await using var connection = await database.OpenAsync();
        foreach (var gardenId in await connection.QueryAsync<Guid>("SELECT id FROM gardens WHERE account_id = @accountId ORDER BY id", new { accountId }))
        {
            if (!except.Contains(gardenId))
                await planner.ReplanAsync(gardenId, CancellationToken.None);
        }
    }

    /// <summary>After a garden is gone nothing is left to plan, but feeds must tell of it.</summary>
    public async Task RebuildFeedsAsync(Guid accountId)
    {
        await using var connection = await database.OpenAsync();
        foreach (var feedId in await connection.QueryAsync<Guid>("SELECT id FROM feeds WHERE account_id = @accountId", new { accountId }))
            await feeds.RebuildAsync(feedId, CancellationToken.None);
    }
}
