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
    private readonly Dictionary<string, double[]> _planned = [];
    private readonly HashSet<string> _doing = [];

    public TreeYear(Craft craft, TreeFacts facts, GardenFacts garden, BenchNights nights, GrowthOutlook outlook)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(garden);
        ArgumentNullException.ThrowIfNull(outlook);
        Craft = craft;
        _facts = facts;
        Garden = garden;
        Nights = nights;
        Outlook = outlook;
        GroupCode = facts.Tree.Group ?? facts.Species.Group;
        Group = craft.Groups[GroupCode];
        Log = new WorkLog(facts.Tree, facts.Work, outlook.Year, garden.Today);
        Seen = new SeenFacts(facts.Observations, outlook.Year, garden.Today, (int)craft.Thresholds.FreshObservationDays.Value);
        Health = Seen.PestSigns && facts.Tree.Health > Health.Weak ? Health.Weak : facts.Tree.Health;
        IsNewlyArrived = facts.Tree.Origin is { } origin
            && outlook.Year.Year - GrowthYear.Of(origin.Date, outlook.Year.Hemisphere).Year is >= 0 and var seasons
            && seasons < craft.Thresholds.ArrivalRestSeasons.Value;
        IsRecovering = Health <= Health.Weak || IsNewlyArrived || facts.Tree.Goals.Contains(Goal.Recover);
        Goals = IsRecovering ? [Goal.Recover] : facts.Tree.Goals;
        IsBasallyDominant = facts.Species.Attributes.Contains("basally-dominant");
    }

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
    public int TodayDay => Outlook.TodayDay;

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
    public bool IsCurrent => Year.Contains(Today);

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

    public bool IsRequested(string technique, string? mode = null) => Tree.Requests.Any(request =>
        request.Technique == technique && (mode is null || request.Aim?.Contains(mode, StringComparison.OrdinalIgnoreCase) == true));

    /// <summary>
    /// The id of the choice that counts on a point where practice disagrees, by its number or second name: the owner's or the
    /// default. Yes-no points answer <c>yes</c> or <c>no</c>.
    /// </summary>
    public string? Setting(params string[] names) => names.Select(name => Craft.Settings.Of(name, Tree.Settings)).FirstOrDefault(choice => choice is not null);

    /// <summary>True when the work is logged for this growth year or is to be done today.</summary>
    public bool IsDoneOrDoing(string technique) =>
        Log.Last(technique) is not null || _doing.Any(key => key == technique || key.StartsWith(technique + "/", StringComparison.Ordinal));

    /// <summary>Work that is to be done today counts as this season's work for what excludes it.</summary>
    public void Doing(string key) => _doing.Add(key);

    /// <summary>Days on which work that is not done yet will likely be done, so that later work can count from it.</summary>
    public void Plan(string key, double[] days) => _planned[key] = days;

    public double[]? PlanOf(string key) => _planned.GetValueOrDefault(key);

    /// <summary>Puts back a plan that was set aside; null: there was none.</summary>
    public void Restore(string key, double[]? days)
    {
        if (days is null)
            _planned.Remove(key);
        else
            _planned[key] = days;
    }

    public Reason Because(string id, string? text = null) =>
        Craft.Because(id == "top-outgrows-bottom" && IsBasallyDominant ? "bottom-outgrows-top" : id, text);

    public static Truth Of(bool? fact) => fact switch { true => Truth.Yes, false => Truth.No, null => Truth.Unknown };
}
