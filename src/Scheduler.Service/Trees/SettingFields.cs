using System.Text.Json;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Catalog;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Trees;

/// <summary>Reads the owner's choices on points where practice disagrees, for an account or for one tree.</summary>
public sealed class SettingFields(CurrentCatalog catalog)
{
    /// <summary>Choice by the name of the point as it was given; a null means no choice.</summary>
    public IReadOnlyDictionary<string, string>? Read(FieldValue value)
    {
        if (value.Object() is not { } fields)
            return null;
        var points = catalog.Content.Craft.Settings;
        var settings = new Dictionary<string, string>();
        foreach (var name in points.Names)
        {
            var point = points.Find(name)!;
            if (fields.Optional(name, null, field => Choice(field, point)) is not { } choice)
                continue;
            settings[name] = choice;
            if (name == point.Alias && settings.ContainsKey(point.Number))
                fields.Fault(name, $"is point {point.Number} once more: give it under one name.");
        }
        fields.RefuseUnknown();
        return settings;
    }

    /// <summary>Settings are kept as text; what was sent as true or false goes out as such.</summary>
    public static IReadOnlyDictionary<string, object> Shown(IReadOnlyDictionary<string, string> settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return settings.ToDictionary(pair => pair.Key, pair => pair.Value switch
        {
            "true" => (object)true,
            "false" => false,
            var text => text
        });
    }

    private static string? Choice(FieldValue value, PracticeSetting point)
    {
        var text = value.Element.ValueKind switch
        {
            JsonValueKind.True => "true",
            JsonValueKind.False => "false",
            JsonValueKind.String => value.Element.GetString(),
            _ => null
        };
        if (text is not null && point.ChoiceOf(text) is not null)
            return text;
        var choices = string.Join(", ", point.Choices.Keys);
        return value.Refuse<string>(point.IsYesNo ? $"give true or false, or one of {choices}" : $"give one of {choices}", new FaultKind("choice"));
    }
}
