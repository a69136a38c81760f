using Scheduler.Service.Catalog;

namespace Scheduler.Service.Tests.Catalog;

/// <summary>The catalog that ships with the service, loaded once for all tests.</summary>
internal static class ShippedCatalog
{
    public static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "config");

    private static readonly Lazy<CatalogContent> Loaded = new(() => CatalogLoader.Load(Folder));

    public static CatalogContent Content => Loaded.Value;
}

/// <summary>A copy of the shipped catalog that a test may spoil.</summary>
internal sealed class CatalogCopy : IDisposable
{
    public CatalogCopy()
    {
        foreach (var file in Directory.EnumerateFiles(ShippedCatalog.Folder, "*.yaml", SearchOption.AllDirectories))
        {
            var target = Path.Combine(Folder, Path.GetRelativePath(ShippedCatalog.Folder, file));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(file, target);
        }
    }

    public string Folder { get; } = Directory.CreateTempSubdirectory("catalog-").FullName;

    public string Read(string name) => File.ReadAllText(Path.Combine(Folder, name));

    public void Write(string name, string text) => File.WriteAllText(Path.Combine(Folder, name), text);

    /// <summary>Replaces text that must be there once, and tells on which line it stands.</summary>
    public int Change(string name, string from, string to)
    {
        var text = Read(name);
        var at = text.IndexOf(from, StringComparison.Ordinal);
        Assert.True(at >= 0 && text.IndexOf(from, at + 1, StringComparison.Ordinal) < 0, $"'{from}' must stand once in {name}.");
        Write(name, text.Replace(from, to, StringComparison.Ordinal));
        return text[..at].Count(character => character == '\n') + 1;
    }

    public IReadOnlyList<CatalogFault> Faults() => Assert.Throws<CatalogException>(() => CatalogLoader.Load(Folder)).Faults;

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
