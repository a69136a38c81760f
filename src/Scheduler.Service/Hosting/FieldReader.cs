using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Scheduler.Service.Hosting;

/// <summary>
/// Reads one JSON object field by field and collects every fault instead of stopping at the first. The same reader serves a new thing
/// (a missing field is a fault or stays empty) and a change (a missing field keeps its value, null clears what may be empty).
/// Values returned after a fault are placeholders: ask <see cref="Refusal"/> before using any.
/// </summary>
public sealed class FieldReader
{
    private readonly Dictionary<string, JsonElement> _given = [];
    private readonly List<string> _known = [];
    private readonly string _path;

    public FieldReader(JsonElement body, string path, FieldFaults faults)
    {
        ArgumentNullException.ThrowIfNull(faults);
        _path = path;
        Faults = faults;
        foreach (var field in body.EnumerateObject())
            _given[field.Name] = field.Value;
    }

    public FieldFaults Faults { get; }

    /// <summary>Names asked for so far, in order.</summary>
    public IReadOnlyList<string> Known => _known;

    public bool Has(string name) => _given.ContainsKey(name);

    public T Required<T>(string name, T? current, Func<FieldValue, T?> read) where T : struct
    {
        if (Take(name, out var value))
            return value.IsNull ? NotNull<T>(value, current is not null) : read(value) ?? default;
        return current ?? Missing<T>(name);
    }

    public T Required<T>(string name, T? current, Func<FieldValue, T?> read) where T : class
    {
        if (Take(name, out var value))
            return value.IsNull ? NotNull<T>(value, current is not null) : read(value)!;
        return current ?? Missing<T>(name);
    }

    public T? Optional<T>(string name, T? current, Func<FieldValue, T?> read) where T : struct =>
        !Take(name, out var value) ? current : value.IsNull ? null : read(value);

    public T? Optional<T>(string name, T? current, Func<FieldValue, T?> read) where T : class =>
        !Take(name, out var value) ? current : value.IsNull ? null : read(value);

    /// <summary>Notes a fault that concerns a field of this object as a whole.</summary>
    public void Fault(string name, string text, FaultKind? kind = null) => Faults.Add(PathOf(name), $"{PathOf(name)} {text}", kind);

    /// <summary>To be called when all fields were asked for: what is left over is unknown.</summary>
    public void RefuseUnknown()
    {
        foreach (var name in _given.Keys.Where(name => !_known.Contains(name)))
        {
            var shown = FieldValue.Shorten(name);
            Faults.Add(PathOf(shown), $"{PathOf(shown)} is no field of this object. Leave it out, or use one of: {string.Join(", ", _known)}.");
        }
    }

    /// <summary>The problem document that lists every fault, or null when the object is sound.</summary>
    public ProblemHttpResult? Refusal()
    {
        RefuseUnknown();
        return Faults.Any ? Problems.Invalid(Faults) : null;
    }

    private bool Take(string name, out FieldValue value)
    {
        _known.Add(name);
        var given = _given.TryGetValue(name, out var element);
        value = new FieldValue(element, PathOf(name), Faults);
        return given;
    }

    private string PathOf(string name) => _path.Length == 0 ? name : $"{_path}.{name}";

    private T Missing<T>(string name)
    {
        Fault(name, "is missing: it must be given.", new FaultKind("missing"));
        return default!;
    }

    private T NotNull<T>(FieldValue value, bool changing)
    {
        value.Refuse(changing ? "leave it out to keep its value, or give a new one; it cannot be cleared" : "it must have a value", new FaultKind("missing"));
        return default!;
    }
}
