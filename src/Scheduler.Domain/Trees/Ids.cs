using System.Text;

namespace Scheduler.Domain.Trees;

/// <summary>
/// The public id of an enum value is its name in kebab case: <c>BranchBuilding</c> is <c>branch-building</c>.
/// One rule for YAML, JSON and the log, so that a word is spelled once.
/// </summary>
public static class Ids
{
    public static string Of<T>(T value) where T : struct, Enum => Names<T>.ByValue[value];

    public static bool TryParse<T>(string? id, out T value) where T : struct, Enum
    {
        value = default;
        return id is not null && Names<T>.ById.TryGetValue(id, out value);
    }

    /// <summary>All ids of an enum in declaration order, for error texts that name what is valid.</summary>
    public static IReadOnlyCollection<string> All<T>() where T : struct, Enum => Names<T>.ById.Keys;

    private static string Kebab(string name)
    {
        var text = new StringBuilder(name.Length + 4);
        foreach (var letter in name)
        {
            if (char.IsUpper(letter) && text.Length > 0)
                text.Append('-');
            text.Append(char.ToLowerInvariant(letter));
        }
        return text.ToString();
    }

    private static class Names<T> where T : struct, Enum
    {
        public static readonly Dictionary<string, T> ById = Enum.GetValues<T>().ToDictionary(value => Kebab(value.ToString()));
        public static readonly Dictionary<T, string> ByValue = ById.ToDictionary(pair => pair.Value, pair => pair.Key);
    }
}
