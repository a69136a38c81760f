using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques.Care;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// One technique as its catalog file describes it: for whom, when, how much, and what follows. Every block that holds
/// numbers says where they come from.
/// </summary>
public sealed record Technique
{
    public required string Id { get; init; }
    public required string Name { get; init; }
    public required string Purpose { get; init; }
    /// <summary>Table group x technique, by group code. Empty: every group passes.</summary>
    public IReadOnlyDictionary<string, Cell> Groups { get; init; } = new Dictionary<string, Cell>();
    /// <summary>Table stage x technique. Empty: every stage passes.</summary>
    public IReadOnlyDictionary<TreeStage, Cell> Stages { get; init; } = new Dictionary<TreeStage, Cell>();
    /// <summary>Table goal x technique. Empty: goals do not decide, a condition does.</summary>
    public IReadOnlyDictionary<Goal, GoalCell> Goals { get; init; } = new Dictionary<Goal, GoalCell>();
    /// <summary>Reason why a species is barred whatever its group says, by catalog id or its beginning (<c>ilex-</c>).</summary>
    public IReadOnlyDictionary<string, string> BarredSpecies { get; init; } = new Dictionary<string, string>();
    /// <summary>What root work of this season does to it.</summary>
    public RootWorkRule RootWork { get; init; } = RootWorkRule.Passes;
    /// <summary>Bars of the technique itself, in the order they are told: ids of the closed set of conditions.</summary>
    public IReadOnlyList<string> Conditions { get; init; } = [];
    /// <summary>Trees for which it is wanted although their goals are neutral to it.</summary>
    public IReadOnlyList<AppliesTo> AlsoWanted { get; init; } = [];
    /// <summary>Roots, water, food and place are the tree's: never done branch by branch.</summary>
    public bool IsWholeTree { get; init; }
    /// <summary>Takes green tips, leaves or candles, so no root work beyond the light kind follows it in the same season.</summary>
    public bool IsGreenWork { get; init; }
    /// <summary>Forces new growth, which indoors needs light and warmth.</summary>
    public bool ForcesGrowth { get; init; }
    /// <summary>Season in which a bar of this season ends: <c>next-spring</c> or <c>next-season</c>.</summary>
    public required string BarredUntil { get; init; }
    /// <summary>How much it takes out of the tree, on the whole tree and on a part of it.</summary>
    public required WorkLoad Load { get; init; }
    public required IReadOnlyList<TechniqueMode> Modes { get; init; }
    /// <summary>What a kind of care goes by; null: hand work.</summary>
    public CareRules? Care { get; init; }

    /// <summary>The modes that exist for a group. Where none does the first stands for all, to say why not.</summary>
    public IReadOnlyList<TechniqueMode> ModesFor(string group)
    {
        if (Modes.Count == 1)
            return Modes;
        List<TechniqueMode> fitting = [.. Modes.Where(mode => mode.Groups.GetValueOrDefault(group)?.BarReason is null)];
        return fitting.Count > 0 ? fitting : [Modes[0]];
    }
}

/// <summary>What root work of the same season does: nothing, a limit with a caution, or a bar. After hard work also next season.</summary>
public sealed record RootWorkRule(RootWorkEffect Light, RootWorkEffect Normal, RootWorkEffect Hard, bool HardBarsNextSeason)
{
    public static readonly RootWorkRule Passes = new(RootWorkEffect.Pass, RootWorkEffect.Pass, RootWorkEffect.Pass, false);
}

/// <summary>Pass, pass with a limit that is told, bar.</summary>
public enum RootWorkEffect { Pass, Limit, Bar }

/// <summary>
/// How much work takes out of a tree, 0-3 (none, light, medium, heavy), on the whole tree and on one zone or branch,
/// and the share of the leaf area it usually takes [%]. Root work is graded by extent.
/// </summary>
public sealed record WorkLoad(int Whole, int Part, Provenance Provenance)
{
    public double LeafAreaPercent { get; init; }
    /// <summary>Trees on which it is heavy work.</summary>
    public IReadOnlyList<AppliesTo> HeavyFor { get; init; } = [];
    /// <summary>Load of root work under 10 % of the roots; null: extent does not matter.</summary>
    public int? Light { get; init; }
}
