using System.Text.Json;

namespace Scheduler.Service.Catalog;

/// <summary>The words that stand for the values of an enumeration: kebab case, as in the JSON of the service.</summary>
internal static class EnumWords<T> where T : struct, Enum
{
    public static readonly IReadOnlyDictionary<string, T> ByWord =
        Enum.GetValues<T>().ToDictionary(value => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString()));

    public static readonly IReadOnlyList<string> All = [.. ByWord.Keys];
}
