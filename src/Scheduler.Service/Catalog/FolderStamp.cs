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
        try
        {
            Append(stamp, folder);
        }
        catch (IOException)
        {
            // A file went away while it was looked at: this look equals no other.
            return Guid.NewGuid().ToString();
        }
        return stamp.ToString();
    }

    private static void Append(StringBuilder stamp, string folder)
    {
        foreach (var file in new DirectoryInfo(folder).EnumerateFiles("*.yaml", SearchOption.AllDirectories).OrderBy(file => file.FullName, StringComparer.Ordinal))
            stamp.Append(CultureInfo.InvariantCulture, $"\n{file.FullName} {file.Length} {file.LastWriteTimeUtc.Ticks}");
    }
}
