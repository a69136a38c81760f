using Scheduler.Domain.Phenology;
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
    /// <summary>Season in which a bar of this season ends: <c>next-spring</c> or <c>next-season</c>.</summary>
    public required string BarredUntil { get; init; }
    /// <summary>How much it takes out of the tree, on the whole tree and on a part of it.</summary>
    public required WorkLoad Load { get; init; }
    public required IReadOnlyList<TechniqueMode> Modes { get; init; }
}

/// <summary>
/// One way of doing a technique. A technique without modes has a single one whose id is null.
/// </summary>
public sealed record TechniqueMode
{
    public string? Id { get; init; }
    /// <summary>Heading of its windows, without the tree's name.</summary>
    public required string Title { get; init; }
    /// <summary>A statement to the owner ("let it grow"), never work: its answer is always <c>leave</c>.</summary>
    public bool IsStatement { get; init; }
    /// <summary>Own tables and conditions of this mode; they are asked after those of the technique.</summary>
    public IReadOnlyDictionary<string, Cell> Groups { get; init; } = new Dictionary<string, Cell>();
    public IReadOnlyDictionary<TreeStage, Cell> Stages { get; init; } = new Dictionary<TreeStage, Cell>();
    public IReadOnlyDictionary<Goal, GoalCell> Goals { get; init; } = new Dictionary<Goal, GoalCell>();
    public RootWorkRule? RootWork { get; init; }
    public IReadOnlyList<string> Conditions { get; init; } = [];
    public WorkLoad? Load { get; init; }
    /// <summary>When it opens and closes; the first that fits the tree counts.</summary>
    public IReadOnlyList<WindowRule> Windows { get; init; } = [];
    /// <summary>Further passes in one growth year; null: once.</summary>
    public RepeatRule? Repeat { get; init; }
    /// <summary>Work must wait for these after other work of this season.</summary>
    public IReadOnlyList<GapRule> Gaps { get; init; } = [];
    /// <summary>Closed once fewer days than this are left to the first autumn frost.</summary>
    public int? LastDaysToFrost { get; init; }
    /// <summary>Ids of the weather holds that apply.</summary>
    public IReadOnlyList<string> Holds { get; init; } = [];
    /// <summary>Needs at least this density (0-3), or there is nothing to do.</summary>
    public int? LeastDensity { get; init; }
    /// <summary>Why it is advised; every fitting line is told, the first is the main reason.</summary>
    public IReadOnlyList<CauseRule> Because { get; init; } = [];
    /// <summary>How much; the first that fits counts.</summary>
    public IReadOnlyList<AmountRule> Amounts { get; init; } = [];
    public IReadOnlyList<TextRule> How { get; init; } = [];
    public IReadOnlyList<TextRule> Cautions { get; init; } = [];
    public IReadOnlyList<TextRule> Aftercare { get; init; } = [];
    public IReadOnlyList<FollowUpRule> FollowUps { get; init; } = [];
    /// <summary>What to do once the window is missed; the first that fits counts.</summary>
    public IReadOnlyList<FallbackRule> Fallbacks { get; init; } = [];
    /// <summary>Minutes of one session by size.</summary>
    public required EffortRule Effort { get; init; }
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
    /// <summary>Load of root work under 10 % of the roots; null: extent does not matter.</summary>
    public int? Light { get; init; }
}
