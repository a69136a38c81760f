using System.Globalization;
using System.Text;

namespace Scheduler.Service.Catalog;

/// <summary>Names, sizes and times of the files in the owner's folder: equal as long as nothing changed.</summary>
internal static class FolderStamp
{
    public static string Of(string? folder)
    {
        if (folder is null || !Directory.Exists(folder))
            return "";
        var stamp = new StringBuilder(folder);
        foreach (var file in new DirectoryInfo(folder).EnumerateFiles("*.yaml", SearchOption.AllDirectories).OrderBy(file => file.FullName, StringComparer.Ordinal))
            stamp.Append(CultureInfo.InvariantCulture, $"\n{file.FullName} {file.Length} {file.LastWriteTimeUtc.Ticks}");
        return stamp.ToString();
    }
}
