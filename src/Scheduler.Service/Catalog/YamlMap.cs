using System.Globalization;
using Scheduler.Service.Hosting;
using YamlDotNet.Core;
using YamlDotNet.RepresentationModel;

namespace Scheduler.Service.Catalog;

/// <summary>
/// A YAML map that is read key by key. Each read reports what is wrong with its value and goes on with a stand-in, so
/// that one pass finds every fault; the caller must not use what it built once the fault list is not empty.
/// </summary>
internal sealed class YamlMap(YamlMappingNode node, string file, string path, FaultList faults)
{
    private readonly HashSet<string> _asked = new(StringComparer.Ordinal);
    private readonly Dictionary<YamlNode, YamlMap> _children = new(ReferenceEqualityComparer.Instance);

    /// <summary>Stands in for a map that could not be read and was told of already: what it lacks is not told again.</summary>
    public static YamlMap Mute(string file, string path = "") => new(new YamlMappingNode(), file, path, new FaultList());

    public string File => file;
    public YamlMappingNode Node => node;
    public int Line => (int)node.Start.Line;
    public IEnumerable<string> Keys => node.Children.Keys.OfType<YamlScalarNode>().Select(key => key.Value ?? "");

    public bool Has(string key) => Find(key) is not null;

    public string Text(string key) => OptionalText(key) ?? Missing(key, "some text", "");

    public string? OptionalText(string key) => Find(key) is { } found ? Scalar(key, found, "text") : null;

    public double Number(string key, double low, double high) => OptionalNumber(key, low, high) ?? Missing(key, "a number", low);

    public double? OptionalNumber(string key, double low, double high)
    {
        if (Find(key) is not { } found)
            return null;
        if (Scalar(key, found, "a number") is not { } text)
            return low;
        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) || !double.IsFinite(number))
        {
            Fault(key, text, "is not a number", "Write a number with a point, such as 12.5.");
            return low;
        }
        if (number < low || number > high)
            Fault(key, text, "is out of range", Invariant($"Write a number from {low} to {high}."));
        return number;
    }

    public int Whole(string key, int low, int high) => OptionalWhole(key, low, high) ?? Missing(key, "a whole number", low);

    public int? OptionalWhole(string key, int low, int high)
    {
        if (OptionalNumber(key, low, high) is not { } number)
            return null;
        if (number != Math.Floor(number))
            Fault(key, Invariant($"{number}"), "is not a whole number", Invariant($"Write a whole number from {low} to {high}."));
        return (int)Math.Clamp(number, low, high);
    }

    /// <summary>True or false; false when left out.</summary>
    public bool Flag(string key)
    {
        if (Find(key) is not { } found || Scalar(key, found, "true or false") is not { } text)
            return false;
        if (text is not ("true" or "false"))
            Fault(key, text, "is neither true nor false", "Write true or false.");
        return text == "true";
    }

    public string Choice(string key, IReadOnlyCollection<string> allowed) =>
        OptionalChoice(key, allowed) ?? Missing(key, $"one of {string.Join(", ", allowed)}", "");

    public string? OptionalChoice(string key, IReadOnlyCollection<string> allowed)
    {
        if (Find(key) is not { } found || Scalar(key, found, "one word") is not { } text)
            return null;
        CheckKnown(key, text, allowed, LineOf(found));
        return text;
    }

    public T Enum<T>(string key) where T : struct, Enum =>
        OptionalEnum<T>(key) ?? Missing(key, $"one of {string.Join(", ", EnumWords<T>.All)}", default(T));

    public T? OptionalEnum<T>(string key) where T : struct, Enum =>
        OptionalChoice(key, EnumWords<T>.All) is { } word ? EnumWords<T>.ByWord.GetValueOrDefault(word) : null;

    public IReadOnlyList<T> Enums<T>(string key) where T : struct, Enum =>
        [.. Choices(key, EnumWords<T>.All).Select(word => EnumWords<T>.ByWord.GetValueOrDefault(word))];

    /// <summary>A list of texts; empty when left out.</summary>
    public IReadOnlyList<string> Texts(string key) => [.. Scalars(key).Select(item => item.Text)];

    /// <summary>A list of words out of a set; empty when left out.</summary>
    public IReadOnlyList<string> Choices(string key, IReadOnlyCollection<string> allowed)
    {
        var words = Scalars(key).ToList();
        foreach (var (text, line) in words)
            CheckKnown(key, text, allowed, line);
        foreach (var twice in words.GroupBy(word => word.Text).Where(same => same.Count() > 1))
            Fault(key, twice.Key, "stands in the list twice", "Keep one of them.", twice.Last().Line);
        return [.. words.Select(word => word.Text)];
    }

    /// <summary>A map under a key. When it is missing the fault is told once and its own keys are not asked for.</summary>
    public YamlMap Map(string key) => OptionalMap(key)
        ?? Missing(key, "a map of keys", Mute(file, path));

    public YamlMap? OptionalMap(string key)
    {
        switch (Find(key))
        {
            case null:
                return null;
            case YamlMappingNode map:
                return Child(map, key);
            case var other:
                NoMap(key, other);
                return Mute(file, path);
        }
    }

    /// <summary>A list of maps; empty when left out.</summary>
    public IReadOnlyList<YamlMap> Maps(string key)
    {
        var maps = new List<YamlMap>();
        foreach (var (item, index) in Items(key).Select((item, index) => (item, index)))
        {
            if (item is YamlMappingNode map)
                maps.Add(Child(map, Invariant($"{key}[{index}]")));
            else
                Fault(key, (item as YamlScalarNode)?.Value, "is not a map of keys", "Write each entry as '- key: value' lines.", LineOf(item));
        }
        return maps;
    }

    /// <summary>A list whose entries are texts or maps; empty when left out.</summary>
    public IReadOnlyList<(string? Text, YamlMap? Map)> TextsOrMaps(string key) => [.. Items(key).Select((item, index) => item switch
    {
        YamlMappingNode map => (null, Child(map, Invariant($"{key}[{index}]"))),
        _ => (Scalar(key, item, "text"), (YamlMap?)null)
    })];

    /// <summary>A map as names and values of any depth, for a reader that checks them itself.</summary>
    public IReadOnlyDictionary<string, object?>? Plain(string key) => Find(key) switch
    {
        null => null,
        YamlMappingNode map => YamlValue.Of(map),
        var other => NoMap(key, other)
    };

    /// <summary>This map as names and values of any depth; no key of it is unknown then.</summary>
    public IReadOnlyDictionary<string, object?> PlainAll()
    {
        _asked.UnionWith(Keys);
        return YamlValue.Of(node);
    }

    /// <summary>Call last: every key that nobody asked for, here and in the maps below, is a fault.</summary>
    public void RefuseUnknownKeys()
    {
        foreach (var key in node.Children.Keys)
        {
            var name = (key as YamlScalarNode)?.Value ?? "?";
            if (!_asked.Contains(name))
                faults.Add(new(file, LineOf(key), Path(name), null, "is not a key known here",
                    $"Remove it, or did you mean {string.Join(" or ", NearestIds.Of(name, _asked, 2))}?"));
        }
        foreach (var child in _children.Values)
            child.RefuseUnknownKeys();
    }

    /// <summary>Line of a place such as <c>modes[0].windows[2]</c>, or of the nearest place around it.</summary>
    public int LineAt(string place)
    {
        YamlNode at = node;
        var line = Line;
        foreach (var step in place.Split(['.', '[', ']'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (at is YamlSequenceNode list && int.TryParse(step, CultureInfo.InvariantCulture, out var index) && index < list.Children.Count)
                at = list.Children[index];
            else if (at is YamlMappingNode map && map.Children.TryGetValue(new YamlScalarNode(step), out var found))
                at = found;
            else
                break;
            line = LineOf(at);
        }
        return line;
    }

    /// <summary>An empty set comes from a file that could not be read, which has been told.</summary>
    public void CheckKnown(string key, string text, IReadOnlyCollection<string> allowed, int? line = null)
    {
        if (allowed.Count > 0 && !allowed.Contains(text))
            Unknown(key, text, allowed, line);
    }

    public void Unknown(string key, string text, IReadOnlyCollection<string> allowed, int? line = null) =>
        Fault(key, text, "is not known", $"Write one of {string.Join(", ", NearestIds.Of(text, allowed, 5))}.", line);

    public void Fault(string key, string? value, string problem, string remedy, int? line = null) =>
        faults.Add(new(file, line ?? (Find(key) is { } found ? LineOf(found) : Line), Path(key), value, problem, remedy));

    private YamlNode? Find(string key)
    {
        _asked.Add(key);
        return node.Children.TryGetValue(new YamlScalarNode(key), out var found) && !IsNull(found) ? found : null;
    }

    private string? Scalar(string key, YamlNode found, string wanted)
    {
        if (found is YamlScalarNode { Value: { Length: > 0 } text })
            return text;
        Fault(key, null, $"is not {wanted}", $"Write {wanted} behind the colon.", LineOf(found));
        return null;
    }

    private IEnumerable<(string Text, int Line)> Scalars(string key)
    {
        foreach (var item in Items(key))
        {
            if (item is YamlScalarNode { Value: { Length: > 0 } text })
                yield return (text, LineOf(item));
            else
                Fault(key, null, "holds an entry that is not text", "Write each entry as text.", LineOf(item));
        }
    }

    private IEnumerable<YamlNode> Items(string key)
    {
        switch (Find(key))
        {
            case null:
                return [];
            case YamlSequenceNode list:
                return list.Children;
            case var other:
                Fault(key, (other as YamlScalarNode)?.Value, "is not a list", "Write [one, two] or one '- entry' a line.", LineOf(other));
                return [];
        }
    }


    private IReadOnlyDictionary<string, object?>? NoMap(string key, YamlNode other)
    {
        Fault(key, (other as YamlScalarNode)?.Value, "is not a map of keys", "Write its keys indented below it.", LineOf(other));
        return null;
    }

    private T Missing<T>(string key, string wanted, T standIn)
    {
        if (!Has(key))
            Fault(key, null, "is missing", $"Add '{key}:' with {wanted}.");
        return standIn;
    }

    private YamlMap Child(YamlMappingNode map, string key)
    {
        if (!_children.TryGetValue(map, out var child))
            _children.Add(map, child = new YamlMap(map, file, Path(key), faults));
        return child;
    }

    private string Path(string key) => path.Length == 0 ? key : $"{path}.{key}";

    private static bool IsNull(YamlNode found) =>
        found is YamlScalarNode { Style: ScalarStyle.Plain, Value: null or "" or "~" or "null" };

    private static int LineOf(YamlNode found) => (int)found.Start.Line;

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
