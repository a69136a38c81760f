using NodaTime;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Catalog;

/// <summary>
/// Takes over a changed folder of the owner. A folder that cannot be read, or that lacks a species some tree is of, leaves
/// the catalog in use as it is and says why.
/// </summary>
internal sealed partial class CatalogReload(
    CatalogOptions options, StorageOptions storage, string stamp, CurrentCatalog catalog, SpeciesInUse inUse, GardenStore gardens,
    IGardenPlanner planner, IClock clock, ILogger<CatalogReload> log)
{
    private readonly SemaphoreSlim _turn = new(1);
    private string _taken = stamp;
    private string _seen = stamp;

    /// <summary>A look at the folder. A change is taken once it has held still from one look to the next.</summary>
    public async Task LookAsync(CancellationToken cancel)
    {
        await _turn.WaitAsync(cancel);
        try
        {
            var own = options.OwnFolderNow(storage.Folder);
            var now = FolderStamp.Of(own);
            var isStill = now == _seen;
            _seen = now;
            if (!isStill || now == _taken)
                return;
            _taken = now;
            await TakeAsync(own, cancel);
        }
        finally
        {
            _turn.Release();
        }
    }

    private async Task TakeAsync(string? own, CancellationToken cancel)
    {
        try
        {
            var content = CatalogLoader.Load(options.FolderOrDefault, own);
            await inUse.RefuseMissingAsync(content, cancel);
            catalog.Take(content, clock.GetCurrentInstant());
            foreach (var warning in content.Warnings)
                DeadRule(log, warning.ToString());
            Taken(log, content.OwnFiles.Count);
        }
        catch (CatalogException refusal)
        {
            catalog.Refuse(refusal);
            Refused(log, refusal.Message);
            return;
        }
        foreach (var gardenId in await gardens.AllIdsAsync(cancel))
            await planner.ReplanAsync(gardenId, cancel);
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "The catalog was read again with {Files} files of the owner's folder; all gardens are planned anew")]
    private static partial void Taken(ILogger log, int files);

    [LoggerMessage(Level = LogLevel.Error, Message = "The changed owner's folder cannot be used; the catalog read before stays. {Faults}")]
    private static partial void Refused(ILogger log, string faults);

    [LoggerMessage(Level = LogLevel.Warning, Message = "A catalog rule can never act. {Warning}")]
    internal static partial void DeadRule(ILogger log, string warning);
}
