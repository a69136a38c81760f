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
        try
        {
            builder.Services.AddSingleton(CatalogLoader.Load(options.FolderOrDefault));
            builder.Services.AddSingleton<CatalogNames>();
            builder.Services.AddSingleton<ISpeciesNames>(services => services.GetRequiredService<CatalogNames>());
            builder.Services.AddSingleton<ITechniqueNames>(services => services.GetRequiredService<CatalogNames>());
            return true;
        }
        catch (CatalogException refusal)
        {
            error.WriteLine(refusal.Message);
            error.WriteLine($"The service does not start. The catalog folder is {options.FolderOrDefault} (setting Catalog:Folder).");
            return false;
        }
    }
}
