using System.Globalization;
using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Catalog;

/// <summary>Reads <c>settings.yaml</c>, the points where practice disagrees.</summary>
internal static class PracticeSettingsReader
{
    public static PracticeSettings Read(YamlMap map)
    {
        var settings = map.Keys.ToList().Select(number => One(map, number)).ToList();
        var names = new HashSet<string>(StringComparer.Ordinal);
        foreach (var setting in settings)
        {
            if (setting.Alias is { } alias && (!names.Add(alias) || map.Has(alias)))
                map.Map(setting.Number).Fault("alias", alias, "names another point already", "Give each point its own name.");
        }
        map.RefuseUnknownKeys();
        return new PracticeSettings([.. settings.OrderBy(one => int.TryParse(one.Number, out var number) ? number : int.MaxValue)]);
    }

    private static PracticeSetting One(YamlMap map, string number)
    {
        if (!int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var whole) || whole < 1 || whole > 999)
            map.Fault(number, null, "is not the number of a point", "Use the number of a point as key, from 1 to 999.");
        var entry = map.Map(number);
        var choices = entry.Map("choices");
        var ids = choices.Keys.ToList();
        if (ids.Count < 2 && entry.Has("choices"))
            entry.Fault("choices", null, "holds fewer than two choices", "Write at least two; a point without a choice is a rule.");
        var (provenance, source) = entry.Origin();
        return new PracticeSetting(
            number, entry.OptionalText("alias"), entry.Text("question"), ids.ToDictionary(id => id, choices.Text, StringComparer.Ordinal),
            entry.Choice("default", ids), provenance, source);
    }
}
