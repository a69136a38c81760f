namespace Scheduler.Service.Storage;

/// <summary>Where everything is kept (<c>Storage</c> in the settings).</summary>
public sealed class StorageOptions
{
    /// <summary>Folder for the database file and the sealing keys; made on first start. Default: <c>scheduler-data</c>.</summary>
    public string Folder { get; set; } = "scheduler-data";

    /// <summary>Database engine: <c>sqlite</c> (default) or <c>postgres</c>.</summary>
    public string Provider { get; set; } = "sqlite";

    /// <summary>Overrides the connection; must be given for <c>postgres</c>. Default: the file <c>scheduler.db</c> in <see cref="Folder"/>.</summary>
    public string? ConnectionString { get; set; }

    /// <summary>Folder of the keys that seal addresses and secrets; a backup holds them too.</summary>
    internal string KeyFolder => Path.Combine(Folder, "keys");

    /// <summary>The keys are as secret as what they seal: nobody but the service's own user may look.</summary>
    internal DirectoryInfo MakeKeyFolder() => OperatingSystem.IsWindows()
        ? Directory.CreateDirectory(KeyFolder)
        : Directory.CreateDirectory(KeyFolder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
}
