namespace Scheduler.Service.Hindcast;

/// <summary>One thing wrong in an input file: where, what stands there, why it cannot be used and what to write instead.</summary>
/// <param name="Line">Counted from 1; 0 when the fault is the file itself.</param>
public sealed record InputFault(string File, int Line, string Column, string? Value, string Problem, string Remedy)
{
    private const int ShownLength = 60;

    public override string ToString()
    {
        var place = Line > 0 ? $"{File}:{Line}" : File;
        var column = Column.Length > 0 ? $" {Column}" : "";
        var value = Value is null ? "" : $" '{(Value.Length > ShownLength ? Value[..ShownLength] + "..." : Value)}'";
        return $"{place}:{column}{value} {Problem}. {Remedy}";
    }
}

/// <summary>Every fault of a run, in the order found. A file that is wrong throughout is told in part.</summary>
public sealed class InputFaults
{
    private const int MostShown = 200;
    private readonly List<InputFault> _faults = [];

    public IReadOnlyList<InputFault> All => _faults;

    public void Add(InputFault fault) => _faults.Add(fault);

    public void WriteTo(TextWriter error)
    {
        foreach (var fault in _faults.Take(MostShown))
            error.WriteLine(fault);
        if (_faults.Count > MostShown)
            error.WriteLine($"... and {_faults.Count - MostShown} more of {_faults.Count} faults.");
    }
}
