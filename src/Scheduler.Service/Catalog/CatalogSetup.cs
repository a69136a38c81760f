using NodaTime;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Catalog;

public static class CatalogSetup
{
    /// <summary>Loads the catalog and registers it. With a faulty catalog it writes every fault and answers false: do not start.</summary>
    public static bool TryAddCatalog(this IHostApplicationBuilder builder, TextWriter error)
    {
        ArgumentNullException.ThrowIfNull(builder);
        ArgumentNullException.ThrowIfNull(error);
        var options = builder.Configuration.GetSection("Catalog").Get<CatalogOptions>() ?? new CatalogOptions();
        var storage = builder.Configuration.GetSection("Storage").Get<StorageOptions>() ?? new StorageOptions();
        var own = options.OwnFolderNow(storage.Folder);
        try
        {
            var stamp = FolderStamp.Of(own);
            var content = CatalogLoader.Load(options.FolderOrDefault, own);
            builder.Services.AddSingleton(services => new CurrentCatalog(content, services.GetRequiredService<IClock>().GetCurrentInstant()));
            builder.Services.AddTransient(services => services.GetRequiredService<CurrentCatalog>().Content);
            builder.Services.AddSingleton<CatalogNames>();
            builder.Services.AddSingleton<ISpeciesNames>(services => services.GetRequiredService<CatalogNames>());
            builder.Services.AddSingleton<ITechniqueNames>(services => services.GetRequiredService<CatalogNames>());
            builder.Services.AddSingleton<SpeciesInUse>();
            builder.Services.AddSingleton(services => ActivatorUtilities.CreateInstance<CatalogReload>(services, options, storage, stamp));
            builder.Services.AddHostedService<OwnFolderWatch>();
            builder.Services.AddHealthChecks().AddCheck<CatalogHealth>("catalog");
            return true;
        }
        catch (CatalogException refusal)
        {
            error.WriteLine(refusal.Message);
            error.WriteLine($"The service does not start. The catalog folder is {options.FolderOrDefault} (setting Catalog:Folder).");
            if (own is not null)
                error.WriteLine($"own/ is {own} (setting Catalog:OwnFolder).");
            return false;
        }
    }

    /// <summary>False, with the faults written, when trees need a species or group that the catalog lacks: do not start.</summary>
    public static async Task<bool> HasSpeciesInUseAsync(this WebApplication app, TextWriter error)
    {
        ArgumentNullException.ThrowIfNull(app);
        ArgumentNullException.ThrowIfNull(error);
        try
        {
            await app.Services.GetRequiredService<SpeciesInUse>().RefuseMissingAsync(app.Services.GetRequiredService<CurrentCatalog>().Content);
            return true;
        }
        catch (CatalogException refusal)
        {
            await error.WriteLineAsync(refusal.Message);
            return false;
        }
    }
}
