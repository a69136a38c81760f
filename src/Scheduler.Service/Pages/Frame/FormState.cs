namespace Scheduler.Service.Pages.Frame;

/// <summary>What a form shows: the values in its fields, and what was wrong with them when it was last sent.</summary>
public sealed class FormState
{
    public static readonly FormState Empty = new(new FormBody(new Dictionary<string, Microsoft.Extensions.Primitives.StringValues>()), new Dictionary<string, string[]>(), null);

    private readonly FormBody _form;
    private IReadOnlySet<string> _english = new HashSet<string>();

    private FormState(FormBody form, IReadOnlyDictionary<string, string[]> faults, string? detail)
    {
        _form = form;
        Faults = faults;
        Detail = detail;
    }

    /// <summary>By field.</summary>
    public IReadOnlyDictionary<string, string[]> Faults { get; }

    /// <summary>What is wrong with the form as a whole; null: nothing.</summary>
    public string? Detail { get; }

    /// <summary>Language of what is said of a field; null: that of the page.</summary>
    public string? LangOf(string name) => _english.Contains(name) ? "en" : null;

    /// <summary>The same for the form as a whole.</summary>
    public string? DetailLang { get; private init; }

    public bool HasFaults => Faults.Count > 0 || Detail is not null;

    /// <summary>A form that is shown for the first time.</summary>
    public static FormState With(params IEnumerable<(string Name, string? Value)> values) => new(
        new FormBody(values.Where(pair => pair.Value is not null).GroupBy(pair => pair.Name)
            .ToDictionary(group => group.Key, group => new Microsoft.Extensions.Primitives.StringValues([.. group.Select(pair => pair.Value)]))),
        new Dictionary<string, string[]>(), null);

    /// <summary>A form that was refused: what was typed stays.</summary>
    public static FormState Refused(FormBody form, ApiAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return new FormState(form, answer.Faults, answer.Faults.Count > 0 ? null : answer.Detail)
        {
            _english = answer.InEnglish, DetailLang = answer.IsDetailInEnglish ? "en" : null
        };
    }

    public static FormState Refused(FormBody form, string field, string text) =>
        new(form, new Dictionary<string, string[]> { [field] = [text] }, null);

    public string? Value(string name) => _form[name];

    public bool Has(string name, string value) => _form.All(name).Contains(value);

    public IReadOnlyList<string> FaultsOf(string name) => Faults.TryGetValue(name, out var texts) ? [.. texts.Select(text => Short(name, text))] : [];

    /// <summary>The field that an item of it belongs to, which the API names: <c>gardenIds[1]</c> is one of <c>gardenIds</c>.</summary>
    public static string FieldOf(string name) => name.Split('[')[0];

    /// <summary>The id of a field's element.</summary>
    /// <param name="prefix">Tells fields of two forms on one page apart.</param>
    public static string IdOf(string name, string? prefix = null) => $"{prefix}f-" + string.Concat(name.Select(letter => char.IsAsciiLetterOrDigit(letter) ? letter : '-'));

    // The label stands right above, so the API's name of the field is left out.
    private static string Short(string name, string text)
    {
        var rest = text.StartsWith(name + " ", StringComparison.Ordinal) ? text[(name.Length + 1)..] : text;
        return char.ToUpperInvariant(rest[0]) + rest[1..];
    }
}
