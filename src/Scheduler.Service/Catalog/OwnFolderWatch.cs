namespace Scheduler.Service.Catalog;

/// <summary>
/// Looks at the owner's folder every two seconds. Looking works on network shares and container volumes too, where the
/// system's own change notices do not arrive, and notices a folder that is made later.
/// </summary>
internal sealed class OwnFolderWatch(CatalogReload reload, CurrentCatalog catalog, ILogger<CatalogReload> log) : BackgroundService
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(2);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        foreach (var warning in catalog.Content.Warnings)
            CatalogReload.DeadRule(log, warning.ToString());
        using var timer = new PeriodicTimer(Every);
        while (await timer.WaitForNextTickAsync(stoppingToken))
            await reload.LookAsync(stoppingToken);
    }
}
