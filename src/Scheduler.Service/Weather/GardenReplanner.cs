using Scheduler.Service.Plans;

namespace Scheduler.Service.Weather;

/// <summary>Has gardens planned anew when their weather changed.</summary>
/// <remarks>The planner reads the weather and the weather wakes the planner, so one of both must be looked up late.</remarks>
internal sealed class GardenReplanner(IServiceProvider services, WeatherStore store)
{
    public Task OfGardenAsync(Guid gardenId, CancellationToken cancel) =>
        services.GetRequiredService<IGardenPlanner>().ReplanAsync(gardenId, cancel);

    public async Task OfCellAsync(string cellKey, CancellationToken cancel)
    {
        foreach (var gardenId in await store.GardensOfCellAsync(cellKey, cancel))
            await OfGardenAsync(gardenId, cancel);
    }
}
