namespace Scheduler.Domain.Techniques;

/// <summary>All points on which growers disagree, in the order of their numbers.</summary>
public sealed class PracticeSettings(IReadOnlyList<PracticeSetting> all)
{
    public static readonly PracticeSettings None = new([]);

    public IReadOnlyList<PracticeSetting> All { get; } = all;

    /// <summary>Every name a choice may be given under: numbers and second names.</summary>
    public IReadOnlyList<string> Names { get; } = [.. all.SelectMany(one => one.Alias is null ? [one.Number] : new[] { one.Number, one.Alias })];

    private readonly Dictionary<string, PracticeSetting> _byName = all.Select(one => (Name: one.Number, Point: one))
        .Concat(all.Where(one => one.Alias is not null).Select(one => (Name: one.Alias!, Point: one)))
        .DistinctBy(named => named.Name).ToDictionary(named => named.Name, named => named.Point);

    public PracticeSetting? Find(string name) => _byName.GetValueOrDefault(name);

    /// <summary>What counts for a tree: its own choices, else those of the account. A point is one point under both its names.</summary>
    public IReadOnlyDictionary<string, string> Merge(IReadOnlyDictionary<string, string> account, IReadOnlyDictionary<string, string> tree)
    {
        ArgumentNullException.ThrowIfNull(account);
        ArgumentNullException.ThrowIfNull(tree);
        if (account.Count == 0)
            return tree;
        var own = tree.Keys.Select(Point).ToHashSet();
        return account.Where(choice => !own.Contains(Point(choice.Key))).Concat(tree).ToDictionary(choice => choice.Key, choice => choice.Value);

        string Point(string name) => Find(name)?.Number ?? name;
    }

    /// <summary>
    /// The id of the choice that counts for a point under any of its names: what was chosen, else the default. A choice the
    /// catalog has no more gives the default. Null: there is no such point.
    /// </summary>
    public string? Of(string name, IReadOnlyDictionary<string, string> chosen)
    {
        ArgumentNullException.ThrowIfNull(chosen);
        if (Find(name) is not { } point)
            return chosen.GetValueOrDefault(name);
        var text = chosen.GetValueOrDefault(point.Number) ?? (point.Alias is null ? null : chosen.GetValueOrDefault(point.Alias));
        return (text is null ? null : point.ChoiceOf(text)) ?? point.Default;
    }
}
