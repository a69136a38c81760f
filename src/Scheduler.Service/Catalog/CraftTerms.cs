namespace Scheduler.Service.Catalog;

/// <summary>The ids that catalog files may name, gathered before the files that name them are read.</summary>
internal sealed record CraftTerms
{
    public required IReadOnlyCollection<string> Groups { get; init; }
    /// <summary>Groups that follow another group's rules where they are not named, with that group.</summary>
    public IReadOnlyDictionary<string, string> LikeGroups { get; init; } = new Dictionary<string, string>();
    public required IReadOnlyCollection<string> Species { get; init; }
    public required IReadOnlyCollection<string> Reasons { get; init; }
    public required IReadOnlyCollection<string> Holds { get; init; }
    public required IReadOnlyCollection<string> Modes { get; init; }
    public required IReadOnlyCollection<string> Conditions { get; init; }
    public required IReadOnlyCollection<string> Situations { get; init; }

    public IReadOnlyCollection<string> Techniques { get; init; } = AllTechniques;

    /// <summary>All techniques that may be logged or named, whether or not there is a file for them yet. The ids are permanent.</summary>
    public static readonly IReadOnlyList<string> AllTechniques =
    [
        "tip-pinch", "cut-back", "early-clip", "flower-side-tips", "outer-leaf-removal", "leaf-thinning", "partial-defoliation",
        "full-defoliation", "pre-push-defoliation", "candle-pinch", "decandling", "needle-plucking", "bud-thinning", "conifer-tips",
        "outline-trim", "leader-change", "structural-pruning", "wiring", "repotting", "flower-fruit-removal", "feeding",
        "frost-protection", "heat-shade", "watering", "winter-storage", "scouting"
    ];
}
