using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.Extensions.Primitives;

namespace Scheduler.Service.Pages.Frame;

/// <summary>A form as it was sent. Names of its fields are those of the API's JSON, so that a fault finds its field.</summary>
public sealed class FormBody
{
    public const string KeyField = "form-key";

    private readonly IReadOnlyDictionary<string, StringValues> _fields;

    public FormBody(IReadOnlyDictionary<string, StringValues> fields) => _fields = fields;

    /// <summary>The key that makes this form count once; empty when the form had none.</summary>
    public string Key => this[KeyField] ?? "";

    /// <summary>What was typed, without blanks around it; null when nothing was.</summary>
    public string? this[string name] =>
        _fields.TryGetValue(name, out var value) && value.ToString().Trim() is { Length: > 0 } text ? text.ReplaceLineEndings("\n") : null;

    public IReadOnlyList<string> All(string name) =>
        _fields.TryGetValue(name, out var values) ? [.. values.OfType<string>().Select(value => value.Trim()).Where(value => value.Length > 0)] : [];

    public IEnumerable<string> Names => _fields.Keys;

    /// <summary>Begins a JSON object out of this form.</summary>
    /// <param name="blankClears">True for a change: a field left blank becomes null. False for something new: it is left out.</param>
    public FormJson Json(CultureInfo culture, bool blankClears = false) => new(this, culture, blankClears);

    /// <summary>Called by the framework to bind a handler's parameter.</summary>
    public static async ValueTask<FormBody?> BindAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (!context.Request.HasFormContentType)
            return new FormBody(new Dictionary<string, StringValues>());
        var form = await context.Request.ReadFormAsync(context.RequestAborted);
        return new FormBody(form.ToDictionary(field => field.Key, field => field.Value));
    }
}

/// <summary>
/// Turns fields of a form into the JSON that the API reads. What cannot be a number or a date is handed on as it was typed: the API's own
/// reader then says what is wrong with it.
/// </summary>
public sealed class FormJson(FormBody form, CultureInfo culture, bool blankClears)
{
    private readonly JsonObject _json = [];

    public JsonObject Object => _json;

    public FormJson Text(params ReadOnlySpan<string> names)
    {
        foreach (var name in names)
            Put(name, form[name] is { } text ? JsonValue.Create(text) : null);
        return this;
    }

    /// <summary>Numbers as the owner writes them: with the decimal sign of their language or a point.</summary>
    public FormJson Number(params ReadOnlySpan<string> names)
    {
        foreach (var name in names)
            Put(name, form[name] is { } text ? Number(text) : null);
        return this;
    }

    /// <summary>A yes or no: <c>true</c>, <c>false</c>, or blank for not said.</summary>
    public FormJson Flag(params ReadOnlySpan<string> names)
    {
        foreach (var name in names)
            Put(name, form[name] switch { "true" or "on" => JsonValue.Create(true), "false" => JsonValue.Create(false), null => null, var text => JsonValue.Create(text) });
        return this;
    }

    /// <summary>Everything ticked under one name; an empty list when nothing is.</summary>
    public FormJson List(string name)
    {
        _json[name] = new JsonArray([.. form.All(name).Select(item => (JsonNode)JsonValue.Create(item))]);
        return this;
    }

    public FormJson Set(string name, JsonNode? value)
    {
        _json[name] = value;
        return this;
    }

    private void Put(string name, JsonNode? value)
    {
        if (value is not null || blankClears)
            _json[name] = value;
    }

    private JsonNode Number(string text)
    {
        var plain = text.Replace(culture.NumberFormat.NumberDecimalSeparator, ".", StringComparison.Ordinal).Replace('\u2212', '-');
        return double.TryParse(plain, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            ? JsonValue.Create(number)
            : JsonValue.Create(text);
    }
}
