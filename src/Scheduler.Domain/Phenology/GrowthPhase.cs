namespace Scheduler.Domain.Phenology;

/// <summary>A growth phase the owner is told about, with its code on the BBCH scale of woody plants (Meier 2001).</summary>
public sealed record GrowthPhase(string Id, int Bbch)
{
    public static readonly GrowthPhase Dormant = new("dormant", 0);
    public static readonly GrowthPhase BudSwell = new("bud-swell", 1);
    public static readonly GrowthPhase BudBreak = new("bud-break", 7);
    public static readonly GrowthPhase FirstLeaf = new("first-leaf", 11);
    public static readonly GrowthPhase Flowering = new("flowering", 60);
    public static readonly GrowthPhase ShootExtension = new("shoot-extension", 31);
    public static readonly GrowthPhase ShootsHardened = new("shoots-hardened", 91);
    public static readonly GrowthPhase LeafColor = new("leaf-color", 92);
    public static readonly GrowthPhase LeafFall = new("leaf-fall", 93);
    public static readonly GrowthPhase CandlesExtending = new("candles-extending", 31);
    public static readonly GrowthPhase NeedlesOut = new("needles-out", 39);

    public static readonly IReadOnlyList<GrowthPhase> Broadleaf =
        [Dormant, BudSwell, BudBreak, FirstLeaf, Flowering, ShootExtension, ShootsHardened, LeafColor, LeafFall];

    /// <summary>Evergreens shed leaves all through the year, so they have no leaf color and no leaf fall.</summary>
    public static readonly IReadOnlyList<GrowthPhase> EvergreenBroadleaf = [.. Broadleaf.Where(phase => phase != LeafColor && phase != LeafFall)];

    public static readonly IReadOnlyList<GrowthPhase> Conifer =
        [Dormant, BudSwell, BudBreak, CandlesExtending, Flowering, NeedlesOut, ShootsHardened];

    public static readonly IReadOnlyList<GrowthPhase> All =
        [.. Broadleaf, CandlesExtending, NeedlesOut];

    public static GrowthPhase? Find(string id) => All.FirstOrDefault(phase => phase.Id == id);
}
