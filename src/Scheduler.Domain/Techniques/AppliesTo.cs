using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// For which trees a rule, an amount or a sentence holds. An empty list asks nothing; several lists must all fit.
/// </summary>
public sealed record AppliesTo
{
    public static readonly AppliesTo Every = new();

    public IReadOnlyList<string> Groups { get; init; } = [];
    /// <summary>Catalog ids, or their beginning when they end in a hyphen (<c>acer-</c>).</summary>
    public IReadOnlyList<string> Species { get; init; } = [];
    public IReadOnlyList<string> Attributes { get; init; } = [];
    public IReadOnlyList<TreeStage> Stages { get; init; } = [];
    public IReadOnlyList<Goal> Goals { get; init; } = [];
    public IReadOnlyList<Health> Health { get; init; } = [];
    public IReadOnlyList<TreeSize> Sizes { get; init; } = [];
    /// <summary>Situations of the closed set in <see cref="Situation"/>, such as <c>pinched-this-flush</c>.</summary>
    public IReadOnlyList<string> Situations { get; init; } = [];

    public bool Fits(TreeYear year)
    {
        ArgumentNullException.ThrowIfNull(year);
        var tree = year.Tree;
        return Has(Groups, year.GroupCode)
            && (Species.Count == 0 || IsOneOf(Species, year.Species))
            && HasOne(Attributes, year.Species.Attributes)
            && Has(Stages, tree.Stage)
            && HasOne(Goals, year.Goals)
            && Has(Health, year.Health)
            && Has(Sizes, tree.Size)
            && HoldAll(Situations, year);
    }

    private static bool IsOneOf(IReadOnlyList<string> ids, Species species)
    {
        for (var index = 0; index < ids.Count; index++)
        {
            var id = ids[index];
            if (id.EndsWith('-') ? species.Id.StartsWith(id, StringComparison.Ordinal) : species.Id == id)
                return true;
        }
        return false;
    }

    private static bool HoldAll(IReadOnlyList<string> situations, TreeYear year)
    {
        for (var index = 0; index < situations.Count; index++)
        {
            if (!Situation.Holds(situations[index], year))
                return false;
        }
        return true;
    }

    private static bool HasOne<T>(IReadOnlyList<T> list, IReadOnlyCollection<T> values)
    {
        for (var index = 0; index < list.Count; index++)
        {
            if (values.Contains(list[index]))
                return true;
        }
        return list.Count == 0;
    }

    private static bool Has<T>(IReadOnlyList<T> list, T value) => list.Count == 0 || list.Contains(value);
}
