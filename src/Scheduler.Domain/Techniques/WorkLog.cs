using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// The work log of one tree, read from one growth year: what was done in it and in the years before. Work in dormancy
/// belongs to the coming growth year.
/// </summary>
public sealed class WorkLog
{
    private readonly List<(WorkRecord Work, int Year)> _works;
    private readonly GrowthYear _year;
    private readonly TreePart _part;

    public WorkLog(Tree tree, IEnumerable<WorkRecord> works, GrowthYear year, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(tree);
        _year = year;
        var all = works.Where(work => work.Date <= today && work.Extent != Extent.None).ToList();
        if (tree.RepottedOn is { } repotted && repotted <= today && !all.Exists(work => work.Technique == "repotting" && work.Date >= repotted))
            all.Add(new WorkRecord { Id = tree.Id, Technique = "repotting", Date = repotted, Extent = Extent.Normal });
        _works = [.. all.OrderBy(work => work.Date).Select(work => (work, GrowthYear.Of(work.Date, year.Hemisphere).Year))];
        _part = TreePart.Whole;
        ThisYear = OfThisYear();
    }

    private WorkLog(WorkLog whole, TreePart part)
    {
        _year = whole._year;
        _part = part;
        _works = [.. whole._works.Where(entry => part.Includes(entry.Work.CrownZone, entry.Work.Branch))];
        ThisYear = OfThisYear();
    }

    /// <summary>The same log as far as it speaks of one part: work on the whole tree and work on that part.</summary>
    public WorkLog For(TreePart part)
    {
        ArgumentNullException.ThrowIfNull(part);
        return part.IsWhole ? this : new WorkLog(this, part);
    }

    /// <summary>Work of this growth year, oldest first.</summary>
    public IReadOnlyList<WorkRecord> ThisYear { get; }

    /// <summary>The latest work of this growth year by technique, or technique and mode (<c>decandling/stage-1</c>).</summary>
    public WorkRecord? Last(string key)
    {
        for (var index = _works.Count - 1; index >= 0; index--)
        {
            var (work, year) = _works[index];
            if (year == _year.Year && Fits(work, key))
                return work;
        }
        return null;
    }

    /// <summary>The latest work of any year.</summary>
    public WorkRecord? LastEver(string key) => _works.LastOrDefault(entry => Fits(entry.Work, key)).Work;

    /// <summary>Days of all work by a technique, oldest first.</summary>
    public IEnumerable<LocalDate> Days(string key) => _works.Where(entry => Fits(entry.Work, key)).Select(entry => entry.Work.Date);

    /// <summary>Work of a growth year so many years ago.</summary>
    public IEnumerable<WorkRecord> YearsAgo(int years, string key) =>
        _works.Where(entry => entry.Year == _year.Year - years && Fits(entry.Work, key)).Select(entry => entry.Work);

    /// <summary>Work of all years by technique, or technique and mode, oldest first.</summary>
    public IEnumerable<WorkRecord> Ever(string key) => _works.Where(entry => Fits(entry.Work, key)).Select(entry => entry.Work);

    /// <summary>Growth years since the technique was last done; null when it never was.</summary>
    public int? SeasonsSince(string key)
    {
        var last = _works.LastOrDefault(entry => Fits(entry.Work, key));
        return last.Work is null ? null : _year.Year - last.Year;
    }

    /// <summary>First days of the visits of this growth year to the whole tree, or to the part; visits close together are one piece of work.</summary>
    public IReadOnlyList<LocalDate> Visits(string key, int visitDays) => [.. Pieces(key, visitDays).Select(piece => piece.First)];

    /// <summary>The same with the sessions that each piece of work took.</summary>
    /// <param name="isWholeTree">Also what was done to parts alone counts for the whole tree.</param>
    public IReadOnlyList<WorkPiece> Pieces(string key, int visitDays, bool isWholeTree = false)
    {
        if (ThisYear.Count == 0)
            return [];
        var pieces = new List<WorkPiece>();
        foreach (var work in ThisYear)
        {
            var isOfPart = work.CrownZone is not null || work.Branch is not null;
            if (!Fits(work, key) || _part.IsWhole && isOfPart && !isWholeTree)
                continue;
            if (pieces.Count == 0 || Period.DaysBetween(pieces[^1].Last, work.Date) > visitDays)
                pieces.Add(new WorkPiece(work.Date, work.Date, 1, isOfPart, work.Finished));
            else
                pieces[^1] = pieces[^1].And(work.Date, isOfPart, work.Finished);
        }
        return pieces;
    }

    /// <summary>The heaviest root work of a growth year so many years ago; null: none.</summary>
    public Extent? RootWork(int yearsAgo)
    {
        Extent? worst = null;
        foreach (var (work, year) in _works)
        {
            if (year != _year.Year - yearsAgo || work.Technique != "repotting")
                continue;
            var extent = ExtentOf(work);
            if (worst is null || extent > worst)
                worst = extent;
        }
        return worst;
    }

    public LocalDate? LastRootWork => _works.LastOrDefault(entry => entry.Work.Technique == "repotting").Work?.Date;

    /// <summary>Extent by the owner's word, else by share of the roots, else by mode; normal when nothing was said.</summary>
    public static Extent ExtentOf(WorkRecord work)
    {
        ArgumentNullException.ThrowIfNull(work);
        if (work.Extent is { } extent)
            return extent;
        if (work.RootPercent is { } percent)
            return percent < 10 ? Extent.Light : percent <= 40 ? Extent.Normal : Extent.Hard;
        return Ids.TryParse<Extent>(work.Mode, out var mode) ? mode : Extent.Normal;
    }

    private List<WorkRecord> OfThisYear() => [.. _works.Where(entry => entry.Year == _year.Year).Select(entry => entry.Work)];

    // A record without a mode counts for the first mode of its technique, except root work, where the extent is the mode.
    internal static bool Fits(WorkRecord work, string key)
    {
        var slash = key.IndexOf('/', StringComparison.Ordinal);
        if (slash < 0)
            return work.Technique == key;
        if (work.Technique.Length != slash || !key.StartsWith(work.Technique, StringComparison.Ordinal))
            return false;
        var mode = key.AsSpan(slash + 1);
        return work.Technique switch
        {
            "repotting" => true,
            "decandling" => (work.Mode ?? "stage-1").AsSpan().SequenceEqual(mode),
            "outline-trim" => (work.Mode ?? "routine-trim").AsSpan().SequenceEqual(mode),
            "structural-pruning" => (work.Mode ?? "live-wood").AsSpan().SequenceEqual(mode),
            "wiring" => (work.Mode ?? "apply").AsSpan().SequenceEqual(mode),
            _ => work.Mode is null || work.Mode.AsSpan().SequenceEqual(mode)
        };
    }
}
