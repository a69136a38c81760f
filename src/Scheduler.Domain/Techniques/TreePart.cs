using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// What one answer speaks of: a branch of its own, else a crown zone, else the tree. When there are branches but no
/// zones, the rest of the tree is a part too.
/// </summary>
/// <param name="CrownZone">The zone, or the zone in which the branch is.</param>
/// <param name="Branch">The branch; null for a zone and for the tree.</param>
/// <param name="IsRest">The tree without its own branches.</param>
public sealed record TreePart(CrownZone? CrownZone, Branch? Branch, bool IsRest = false)
{
    public static readonly TreePart Whole = new(null, null);

    private static readonly TreePart[] Zones = [.. Enum.GetValues<CrownZone>().Select(zone => new TreePart(zone, null))];
    private static readonly TreePart[] ZonesFromBelow = [Zones[2], Zones[1], Zones[0], Zones[3]];
    private static readonly TreePart Rest = new(null, null, true);
    private static readonly TreePart[] OnlyWhole = [Whole];

    public bool IsWhole => CrownZone is null && Branch is null && !IsRest;

    /// <summary>The words for it within a sentence.</summary>
    public string Words => Branch is { } branch ? branch.Id : CrownZone is { } zone ? Ids.Of(zone) : "the rest";

    /// <summary>
    /// The parts of a tree, strongest zone first. Zones count once a branch, an observation or logged work of the growth
    /// year names one.
    /// </summary>
    public static IReadOnlyList<TreePart> Of(TreeYear year)
    {
        ArgumentNullException.ThrowIfNull(year);
        var branches = year.Tree.Branches;
        var hasZones = branches.Any(branch => branch.CrownZone is not null) || year.Seen.Any(seen => seen.CrownZone is not null)
            || year.Log.ThisYear.Any(work => work.CrownZone is not null);
        if (branches.Count == 0 && !hasZones)
            return OnlyWhole;
        IEnumerable<TreePart> zones = !hasZones ? [Rest] : year.IsBasallyDominant ? ZonesFromBelow : Zones;
        return [.. zones, .. branches.Select(branch => new TreePart(branch.CrownZone, branch))];
    }

    /// <summary>Whether a record of this branch and zone speaks of this part; what names neither speaks of every part.</summary>
    public bool Includes(CrownZone? zone, string? branch) =>
        IsWhole || (branch is null ? zone is null || zone == CrownZone : branch == Branch?.Id);
}
