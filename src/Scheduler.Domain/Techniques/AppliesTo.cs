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
            && (Species.Count == 0 || Species.Any(id => IsSpecies(id, year.Species)))
            && (Attributes.Count == 0 || Attributes.Any(year.Species.Attributes.Contains))
            && Has(Stages, tree.Stage)
            && (Goals.Count == 0 || Goals.Any(year.Goals.Contains))
            && Has(Health, year.Health)
            && Has(Sizes, tree.Size)
            && Situations.All(id => Situation.Holds(id, year));
    }

    private static bool IsSpecies(string id, Species species) =>
        id.EndsWith('-') ? species.Id.StartsWith(id, StringComparison.Ordinal) : species.Id == id;

    private static bool Has<T>(IReadOnlyList<T> list, T value) => list.Count == 0 || list.Contains(value);
}
