namespace Scheduler.Service.Catalog;

/// <summary>Where the catalog is (<c>Catalog</c> in the settings).</summary>
public sealed class CatalogOptions
{
    /// <summary>Folder with <c>species/</c>, <c>techniques/</c> and the shared files. Default: <c>config</c> beside the program.</summary>
    public string? Folder { get; set; }

    public string FolderOrDefault => string.IsNullOrWhiteSpace(Folder) ? Path.Combine(AppContext.BaseDirectory, "config") : Path.GetFullPath(Folder);
}
