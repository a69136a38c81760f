using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// One tree in one growth year with everything the rules ask about it: who it is, what was done and seen, and (in the
/// other half of this type) when growth reaches a point.
/// </summary>
public sealed partial class TreeYear
{
    private readonly TreeFacts _facts;
    private readonly Memory _memory;
    private readonly Dictionary<TreePart, TreeYear> _parts = [];
    private readonly Dictionary<string, Lazy<double[]?>> _planned = [];
    private readonly IReadOnlyCollection<string> _doing;

    public TreeYear(Craft craft, TreeFacts facts, GardenFacts garden, BenchNights nights, GrowthOutlook outlook)
        : this(craft, facts, garden, nights, outlook, [])
    {
    }

    private TreeYear(
        Craft craft, TreeFacts facts, GardenFacts garden, BenchNights nights, GrowthOutlook outlook, IReadOnlyCollection<string> doing, Memory? memory = null)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(garden);
        ArgumentNullException.ThrowIfNull(outlook);
        Craft = craft;
        _facts = facts;
        _doing = doing;
        _memory = memory ?? new Memory();
        Whole = this;
        Part = TreePart.Whole;
        Garden = garden;
        Nights = nights;
        Outlook = outlook;
        TodayDay = outlook.TodayDay;
        IsCurrent = outlook.Year.Contains(garden.Today);
        GroupCode = facts.Tree.Group ?? facts.Species.Group;
        Group = craft.Groups[GroupCode];
        Log = memory?.Log ?? new WorkLog(facts.Tree, facts.Work, outlook.Year, garden.Today);
        Seen = memory?.Seen ?? new SeenFacts(facts.Observations, outlook.Year, garden.Today, (int)craft.Thresholds.FreshObservationDays.Value);
        (_memory.Log, _memory.Seen) = (Log, Seen);
        Health = Seen.PestSigns && facts.Tree.Health > Health.Weak ? Health.Weak : facts.Tree.Health;
        IsNewlyArrived = facts.Tree.Origin is { } origin
            && outlook.Year.Year - GrowthYear.Of(origin.Date, outlook.Year.Hemisphere).Year is >= 0 and var seasons
            && seasons < craft.Thresholds.ArrivalRestSeasons.Value;
        IsRecovering = Health <= Health.Weak || IsNewlyArrived || facts.Tree.Goals.Contains(Goal.Recover);
        Goals = IsRecovering ? [Goal.Recover] : facts.Tree.Goals;
        IsBasallyDominant = facts.Species.Attributes.Contains("basally-dominant");
    }

    private TreeYear(TreeYear whole, TreePart part)
    {
        Craft = whole.Craft;
        _memory = whole._memory;
        _doing = whole._doing;
        Whole = whole;
        Part = part;
        Garden = whole.Garden;
        Nights = whole.Nights;
        Outlook = whole.Outlook;
        TodayDay = whole.TodayDay;
        IsCurrent = whole.IsCurrent;
        GroupCode = whole.GroupCode;
        Group = whole.Group;
        (Log, Seen) = _memory.OfPart(part, whole.Year);
        Health = whole.Health;
        IsNewlyArrived = whole.IsNewlyArrived;
        IsBasallyDominant = whole.IsBasallyDominant;
        var tree = whole.Tree;
        _facts = part.Branch is { } branch
            ? whole._facts with { Tree = tree with { Stage = branch.Stage ?? tree.Stage, Goals = branch.Goals ?? tree.Goals } }
            : whole._facts;
        // A branch may be let run to recover by itself; a tree that recovers does so everywhere.
        IsRecovering = whole.IsRecovering || Tree.Goals.Contains(Goal.Recover);
        Goals = IsRecovering ? [Goal.Recover] : Tree.Goals;
    }

    /// <summary>
    /// The same tree and year as one part of it sees them: its stage and goals, what was seen there, and the work that
    /// touched it. Budgets and caps stay those of <see cref="Whole"/>.
    /// </summary>
    public TreeYear For(TreePart part)
    {
        ArgumentNullException.ThrowIfNull(part);
        if (part == Part)
            return this;
        if (part.IsWhole)
            return Whole;
        if (!Whole._parts.TryGetValue(part, out var year))
            Whole._parts[part] = year = new TreeYear(Whole, part);
        return year;
    }

    /// <summary>The same tree with work that is to be done today, which counts as this season's for what excludes it.</summary>
    public TreeYear WithDoing(IReadOnlyCollection<string> keys) => new(Craft, _facts, Garden, Nights, Outlook, [.. _doing, .. keys], _memory);

    /// <summary>The part this speaks of; the whole tree unless it came from <see cref="For"/>.</summary>
    public TreePart Part { get; }
    /// <summary>The tree this is a part of, or itself.</summary>
    public TreeYear Whole { get; }
    /// <summary>The branch this speaks of, if it is one.</summary>
    public Branch? Branch => Part.Branch;
    public Craft Craft { get; }
    public GardenFacts Garden { get; }
    public BenchNights Nights { get; }
    public GrowthOutlook Outlook { get; }
    public Tree Tree => _facts.Tree;
    public Species Species => _facts.Species;
    public string GroupCode { get; }
    /// <summary>Code that rules written in code ask for: that of the group this one is like, or its own.</summary>
    public string AnswersLike => Group.Like ?? GroupCode;
    public TechniqueGroup Group { get; }
    public WorkLog Log { get; }
    public SeenFacts Seen { get; }
    public Thresholds Thresholds => Craft.Thresholds;
    public LocalDate Today => Garden.Today;
    public GrowthYear Year => Outlook.Year;
    public int TodayDay { get; }

    /// <summary>Health as it counts: signs of pest or disease make a tree weak until they are reported gone.</summary>
    public Health Health { get; }
    /// <summary>Collected, imported, grafted or dried so lately that it only recovers.</summary>
    public bool IsNewlyArrived { get; }
    /// <summary>Recovery outranks every other goal.</summary>
    public bool IsRecovering { get; }
    public IReadOnlyList<Goal> Goals { get; }
    /// <summary>Stronger at the bottom than at the top.</summary>
    public bool IsBasallyDominant { get; }
    public bool IsIndoors => Tree.Placement == Placement.Indoors;
    /// <summary>True for the growth year that today belongs to.</summary>
    public bool IsCurrent { get; }

    /// <summary>Root work of this growth year, logged or being done today.</summary>
    public Extent? RootWork
    {
        get
        {
            Extent? doing = _doing.Contains("repotting/hard") ? Extent.Hard : _doing.Contains("repotting/normal") ? Extent.Normal : null;
            var logged = Log.RootWork(0);
            return logged is null || doing > logged ? doing ?? logged : logged;
        }
    }

    /// <summary>False when neither the log nor the owner says when the roots were last worked.</summary>
    public bool IsRootWorkKnown => Log.LastRootWork is not null || Tree.RootWorkKnown == true;

    public bool IsRequested(string technique, string? mode = null) => Tree.Requests.Count > 0 && Tree.Requests.Any(request =>
        request.Technique == technique && (mode is null || request.Aim?.Contains(mode, StringComparison.OrdinalIgnoreCase) == true));

    /// <summary>
    /// The id of the choice that counts on a point where practice disagrees, by its number or second name: the owner's or the
    /// default. Yes-no points answer <c>yes</c> or <c>no</c>.
    /// </summary>
    public string? Setting(params ReadOnlySpan<string> names)
    {
        foreach (var name in names)
        {
            if (Craft.Settings.Of(name, Tree.Settings) is { } choice)
                return choice;
        }
        return null;
    }

    /// <summary>True when the work is logged for this growth year or is to be done today.</summary>
    public bool IsDoneOrDoing(string technique) =>
        Log.Last(technique) is not null || _doing.Count > 0 && _doing.Any(key => key == technique || key.StartsWith(technique + "/", StringComparison.Ordinal));

    /// <summary>
    /// Days on which work that is not done yet will likely be done, so that later work can count from it. They are
    /// worked out when first asked for; null: it does not come.
    /// </summary>
    public void Plan(string key, Func<double[]?> days) => _planned[key] = new Lazy<double[]?>(days, isThreadSafe: false);

    /// <summary>On a part the plan of that part; what is never done on parts is planned for the tree.</summary>
    public double[]? PlanOf(string key)
    {
        if (_planned.TryGetValue(key, out var days))
            return days.Value;
        return Part.IsWhole || Craft.Find(key.Split('/')[0])?.IsWholeTree != true ? null : Whole.PlanOf(key);
    }

    /// <summary>Takes other days for planned work while <paramref name="ask"/> runs.</summary>
    internal T Planned<T>(string key, double[] days, Func<T> ask)
    {
        var before = _planned.GetValueOrDefault(key);
        _planned[key] = new Lazy<double[]?>(days);
        var answer = ask();
        if (before is null)
            _planned.Remove(key);
        else
            _planned[key] = before;
        return answer;
    }

    public Reason Because(string id, string? text = null) =>
        Craft.Because(id == "top-outgrows-bottom" && IsBasallyDominant ? "bottom-outgrows-top" : id, text);

    // What is worked out once for the tree and all its parts.
    private sealed class Memory
    {
        public Dictionary<(int, double), double> RemainingDays { get; } = [];
        public Dictionary<(double, bool), double[]> NightDays { get; } = [];
        public double? BackstopDay { get; set; }
        public WorkLog? Log { get; set; }
        public SeenFacts? Seen { get; set; }
        private readonly Dictionary<TreePart, (WorkLog Log, SeenFacts Seen)> _parts = [];

        public (WorkLog Log, SeenFacts Seen) OfPart(TreePart part, GrowthYear year) =>
            _parts.TryGetValue(part, out var known) ? known : _parts[part] = (Log!.For(part), Seen!.For(part, year));
    }

    public static Truth Of(bool? fact) => fact switch { true => Truth.Yes, false => Truth.No, null => Truth.Unknown };
}
