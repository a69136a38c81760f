namespace Scheduler.Service.Pages.Layout;

/// <summary>What a short list is searched for, and its order.</summary>
/// <param name="Text">Null: all.</param>
public sealed record ListQuery(string? Text, string Sort)
{
    /// <param name="sorts">Orders there are; the first is the usual one.</param>
    public static ListQuery Of(string? text, string? sort, IReadOnlyList<string> sorts)
    {
        ArgumentNullException.ThrowIfNull(sorts);
        return new ListQuery(string.IsNullOrWhiteSpace(text) ? null : text.Trim(), sorts.FirstOrDefault(one => one == sort) ?? sorts[0]);
    }

    public bool Fits(params IEnumerable<string?> words) => Text is null || words.Any(word => word?.Contains(Text, StringComparison.OrdinalIgnoreCase) == true);
}
