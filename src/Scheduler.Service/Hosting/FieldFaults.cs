namespace Scheduler.Service.Hosting;

/// <summary>Everything that is wrong with one request, keyed by field, in the order in which it was found.</summary>
public sealed class FieldFaults
{
    private readonly List<(string Field, string Text)> _faults = [];

    public bool Any => _faults.Count > 0;

    public void Add(string field, string text) => _faults.Add((field, text));

    /// <summary>The <c>errors</c> of the problem document.</summary>
    public IDictionary<string, string[]> ByField()
    {
        var errors = new Dictionary<string, string[]>();
        foreach (var group in _faults.GroupBy(fault => fault.Field, fault => fault.Text))
            errors[group.Key] = [.. group.Distinct()];
        return errors;
    }
}
