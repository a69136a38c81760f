namespace Scheduler.Service.Catalog;

/// <summary>One thing wrong in a catalog file: where, what stands there, why it cannot be used and what to write instead.</summary>
/// <param name="Line">Counted from 1; 0 when the fault is the file itself.</param>
/// <param name="Key">Path of keys, such as <c>thermalTimes.baseC.value</c>.</param>
public sealed record CatalogFault(string File, int Line, string Key, string? Value, string Problem, string Remedy)
{
    public override string ToString()
    {
        var place = Line > 0 ? $"{File}:{Line}" : File;
        var value = Value is null ? "" : $" '{Value}'";
        return $"{place}: {(Key.Length > 0 ? Key : "file")}{value} {Problem}. {Remedy}";
    }
}

/// <summary>The catalog cannot be used. Carries every fault found, ordered by file and line.</summary>
public sealed class CatalogException : Exception
{
    public CatalogException(IEnumerable<CatalogFault> faults) : this([.. faults.OrderBy(fault => fault.File, StringComparer.Ordinal).ThenBy(fault => fault.Line)])
    {
    }

    private CatalogException(IReadOnlyList<CatalogFault> faults) : base(Describe(faults)) => Faults = faults;

    public IReadOnlyList<CatalogFault> Faults { get; }

    private static string Describe(IReadOnlyList<CatalogFault> faults) => string.Join(Environment.NewLine,
        [$"The catalog has {faults.Count} fault{(faults.Count == 1 ? "" : "s")}:", .. faults.Select(fault => "  " + fault)]);
}
