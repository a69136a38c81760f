using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

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
    /// <summary>It comes round again: once its time is over it waits for the next, and is never missed.</summary>
    public bool RoundAgain { get; init; }
    /// <summary>Done as often as there is need for it. Its closing is the day it is due by; later it is overdue, not missed.</summary>
    public bool AsNeeded { get; init; }
    /// <summary>It takes a load off the tree, so a weak, failing or freshly repotted tree may have it too.</summary>
    public bool Relieves { get; init; }
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
    /// <summary>The weather holds that apply, and to which trees.</summary>
    public IReadOnlyList<HoldRule> Holds { get; init; } = [];
    /// <summary>Needs at least this density (0-3), or there is nothing to do.</summary>
    public int? LeastDensity { get; init; }
    /// <summary>Of <see cref="LastDaysToFrost"/> and <see cref="LeastDensity"/>.</summary>
    public Provenance LimitsProvenance { get; init; } = Provenance.CommonPractice;
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
