namespace Scheduler.Service.Hosting;

/// <summary>What kind of fault it is, for who says it in words of their own.</summary>
/// <param name="Kind">A word such as <c>missing</c> or <c>number</c>; <c>other</c> where only the text says it.</param>
/// <param name="Values">What belongs to it, such as the bounds; numbers and dates as in JSON.</param>
public sealed record FaultKind(string Kind, params IReadOnlyList<string> Values)
{
    public static readonly FaultKind Other = new("other");
}

/// <summary>Everything that is wrong with one request, keyed by field, in the order in which it was found.</summary>
public sealed class FieldFaults
{
    private readonly List<(string Field, string Text, FaultKind Kind)> _faults = [];

    public bool Any => _faults.Count > 0;

    public void Add(string field, string text, FaultKind? kind = null) => _faults.Add((field, text, kind ?? FaultKind.Other));

    /// <summary>The <c>errors</c> of the problem document.</summary>
    public IDictionary<string, string[]> ByField() => Grouped(fault => fault.Text);

    /// <summary>The <c>kinds</c> of the problem document: for each text of <c>errors</c>, in the same order, the same without words.</summary>
    public IDictionary<string, FaultKind[]> KindsByField() => Grouped(fault => fault.Kind);

    private Dictionary<string, T[]> Grouped<T>(Func<(string Field, string Text, FaultKind Kind), T> part) =>
        _faults.GroupBy(fault => fault.Field).ToDictionary(group => group.Key, group => group.DistinctBy(fault => fault.Text).Select(part).ToArray());
}
