using Quickenshtein;

namespace Scheduler.Service.Hosting;

/// <summary>The known ids nearest to one that is not known, by edit distance; ids that contain the text come first.</summary>
public static class NearestIds
{
    // The distance costs length times length, and the text may come from anybody.
    private const int Compared = 60;

    public static IReadOnlyList<string> Of(string? unknown, IEnumerable<string> known, int count = 3) =>
        Of(unknown, known.Select(id => (id, (IEnumerable<string>)[id])), count);

    /// <summary>The same where an id also goes by other names; the nearest name counts.</summary>
    public static IReadOnlyList<string> Of(string? unknown, IEnumerable<(string Id, IEnumerable<string> Names)> known, int count = 3)
    {
        ArgumentNullException.ThrowIfNull(known);
        var wanted = Plain(unknown ?? "");
        return [.. known
            .Select(entry => (entry.Id, Score: entry.Names.Min(name => Score(wanted, Plain(name)))))
            .OrderBy(entry => entry.Score).ThenBy(entry => entry.Id, StringComparer.Ordinal)
            .Take(count).Select(entry => entry.Id)];
    }

    private static (bool Apart, int Distance) Score(string wanted, string name) =>
        (wanted.Length < 3 || !name.Contains(wanted, StringComparison.Ordinal), Levenshtein.GetDistance(wanted, name));

    private static string Plain(string text) =>
        text.Trim()[..Math.Min(text.Trim().Length, Compared)].ToLowerInvariant().Replace(' ', '-').Replace('_', '-');
}
