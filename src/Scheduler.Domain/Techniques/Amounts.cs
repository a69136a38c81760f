using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>How much: the catalog's entries for this tree or part of it, cut to what the cap on leaf area leaves.</summary>
internal static class Amounts
{
    private const string TreeMost = "treePercentMax";
    private const string Zone = "crownZone";
    private const string Shoots = "shoots";
    private const string Take = "take";
    private const string None = "none";

    public static IReadOnlyList<IReadOnlyDictionary<string, object>> Entries(Judgement judgement)
    {
        if (Rule(judgement) is not { } rule)
            return [];
        var entries = OfPart(rule.Entries, judgement.Year.Part);
        if (!IsCut(judgement, out var room))
            return entries;
        return
        [
            .. entries.Where(entry => !entry.ContainsKey(TreeMost)),
            new Dictionary<string, object> { [TreeMost] = room }
        ];
    }

    public static string? Text(Judgement judgement)
    {
        if (Rule(judgement) is not { } rule)
            return null;
        return IsCut(judgement, out var room) ? $"{rule.Text} At most {room} % of the leaves now, because some went already." : rule.Text;
    }

    /// <summary>True when the catalog leaves this zone alone, or the weak shoots that are all the owner found there.</summary>
    public static bool IsNone(TechniqueMode mode, TreeYear year)
    {
        if (year.Part.IsWhole || mode.Amounts.FirstFor(year) is not { } rule)
            return false;
        var zone = IdOf(year.Part.CrownZone);
        return rule.Entries.Any(entry => TakesNone(entry)
            && (zone is not null && IsOf(entry, zone) && !entry.ContainsKey(Shoots) || year.Seen.WeakOnly && !entry.ContainsKey(Zone) && Names(entry, "weak")));
    }

    /// <summary>Zones that the catalog leaves alone whatever is seen there.</summary>
    public static IEnumerable<CrownZone> ZonesLeft(Judgement judgement)
    {
        if (Rule(judgement) is not { } rule)
            yield break;
        foreach (var zone in Enum.GetValues<CrownZone>())
        {
            if (rule.Entries.Any(entry => TakesNone(entry) && IsOf(entry, IdOf(zone)!) && !entry.ContainsKey(Shoots)))
                yield return zone;
        }
    }

    private static IReadOnlyList<IReadOnlyDictionary<string, object>> OfPart(IReadOnlyList<IReadOnlyDictionary<string, object>> entries, TreePart part)
    {
        if (part.IsWhole || part.IsRest)
            return entries;
        var zone = IdOf(part.CrownZone);
        var own = zone is null ? [] : entries.Where(entry => IsOf(entry, zone)).ToList();
        // What is said of some shoots everywhere gives way to what is said of the same shoots in this zone.
        return [.. own, .. entries.Where(entry => !entry.ContainsKey(Zone) && !own.Exists(special => Overlap(special, entry)))];
    }

    private static bool Overlap(IReadOnlyDictionary<string, object> special, IReadOnlyDictionary<string, object> general)
    {
        if (general.ContainsKey(TreeMost))
            return false;
        if (TakesNone(special) && !special.ContainsKey(Shoots))
            return true;
        if (ShootsOf(general) is not { Count: > 0 } shoots)
            return !general.ContainsKey(Shoots);
        return ShootsOf(special).Intersect(shoots).Any();
    }

    private static bool TakesNone(IReadOnlyDictionary<string, object> entry) => entry.TryGetValue(Take, out var take) && None.Equals(take);

    private static bool IsOf(IReadOnlyDictionary<string, object> entry, string zone) => entry.TryGetValue(Zone, out var named) && zone.Equals(named);

    private static bool Names(IReadOnlyDictionary<string, object> entry, string shoots) => ShootsOf(entry).Contains(shoots);

    private static IReadOnlyList<string> ShootsOf(IReadOnlyDictionary<string, object> entry) => !entry.TryGetValue(Shoots, out var shoots) ? []
        : shoots is System.Collections.IEnumerable list and not string ? [.. list.Cast<object>().Select(one => one.ToString()!)] : [shoots.ToString()!];

    private static string? IdOf(CrownZone? zone) => zone is { } known ? Ids.Of(known) : null;

    private static AmountRule? Rule(Judgement judgement) => judgement.Mode.Amounts.FirstFor(judgement.Year);

    private static bool IsCut(Judgement judgement, out double room)
    {
        room = Math.Floor(judgement.LeafRoomPercent ?? 100);
        return room < LoadBudget.LoadOf(judgement.Technique, judgement.Mode).LeafAreaPercent;
    }
}
