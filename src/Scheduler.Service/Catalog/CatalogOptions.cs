namespace Scheduler.Service.Catalog;

/// <summary>Where the catalog is (<c>Catalog</c> in the settings).</summary>
public sealed class CatalogOptions
{
    /// <summary>Folder with <c>species/</c>, <c>techniques/</c> and the shared files. Default: <c>config</c> beside the program.</summary>
    public string? Folder { get; set; }

    /// <summary>The owner's own folder, laid over the other. Default: <c>catalog</c> in the storage folder, if there is one.</summary>
    public string? OwnFolder { get; set; }

    public string FolderOrDefault => string.IsNullOrWhiteSpace(Folder) ? Path.Combine(AppContext.BaseDirectory, "config") : Path.GetFullPath(Folder);

    /// <summary>The owner's folder as it counts now; null: none was named and there is none at the usual place.</summary>
    public string? OwnFolderNow(string storageFolder)
    {
        if (!string.IsNullOrWhiteSpace(OwnFolder))
            return Path.GetFullPath(OwnFolder);
        var usual = Path.GetFullPath(Path.Combine(storageFolder, "catalog"));
        return Directory.Exists(usual) ? usual : null;
    }
}
