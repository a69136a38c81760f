namespace Scheduler.Service.Plans;

/// <summary>Brings the stored windows of a garden, and the feeds that show them, up to date.</summary>
public interface IGardenPlanner
{
    /// <summary>Cheap when nothing changed: then no row and no feed byte is touched.</summary>
    Task ReplanAsync(Guid gardenId, CancellationToken cancel = default);
}
