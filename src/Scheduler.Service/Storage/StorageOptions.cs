namespace Scheduler.Service.Storage;

/// <summary>Where everything is kept (<c>Storage</c> in the settings).</summary>
public sealed class StorageOptions
{
    /// <summary>Folder for the database file and the sealing keys; made on first start. Default: <c>scheduler-data</c>.</summary>
    public string Folder { get; set; } = "scheduler-data";

    /// <summary>Database engine. Default and so far only: <c>sqlite</c>.</summary>
    public string Provider { get; set; } = "sqlite";

    /// <summary>Overrides the connection; default: the file <c>scheduler.db</c> in <see cref="Folder"/>.</summary>
    public string? ConnectionString { get; set; }
}
