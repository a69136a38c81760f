using YamlDotNet.Core;
using YamlDotNet.RepresentationModel;

namespace Scheduler.Service.Catalog;

/// <summary>Opens one YAML file as a map of keys. What cannot be read at all becomes a fault, never an exception.</summary>
internal static class YamlFile
{
    /// <param name="shownAs">Name used in faults, relative to the catalog folder.</param>
    public static YamlMap? Open(string path, string shownAs, FaultList faults)
    {
        try
        {
            using var reader = new StreamReader(path);
            return Parse(reader, shownAs, faults);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            faults.Add(new(shownAs, 0, "", null, $"cannot be read: {problem.Message}", "Make the file readable for the service."));
            return null;
        }
    }

    public static YamlMap? Parse(TextReader reader, string shownAs, FaultList faults)
    {
        var stream = new YamlStream();
        try
        {
            stream.Load(reader);
        }
        catch (YamlException problem)
        {
            faults.Add(new(shownAs, (int)problem.Start.Line, "", null, $"is not valid YAML: {(problem.InnerException ?? problem).Message}", "Correct this line; look for tabs, missing quotes and keys written twice."));
            return null;
        }
        if (stream.Documents is [{ RootNode: YamlMappingNode root }])
            return new YamlMap(root, shownAs, "", faults);
        faults.Add(new(shownAs, 1, "", null, "does not hold one map of keys", "Write 'key: value' lines, one document a file."));
        return null;
    }
}

/// <summary>Gathers faults from files that are read side by side.</summary>
internal sealed class FaultList
{
    private readonly List<CatalogFault> _faults = [];

    public void Add(CatalogFault fault)
    {
        lock (_faults)
            _faults.Add(fault);
    }

    public IReadOnlyList<CatalogFault> All
    {
        get
        {
            lock (_faults)
                return [.. _faults];
        }
    }
}
