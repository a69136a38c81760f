using NodaTime;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// Wire on a tree: a place is wired from the day it was put on, or first looked at, until it is logged as taken off there
/// or from the whole tree.
/// </summary>
/// <param name="IsOn">Some wire is on.</param>
/// <param name="PutOn">When the oldest wire that is still on was put on; null: not logged.</param>
/// <param name="LastLook">The last look at it, or the last cut since it was put on.</param>
/// <param name="IsTight">It was seen tight or biting.</param>
/// <param name="IsSinceCut">The last of these was a cut, so the wood under the wire thickens whatever the season.</param>
public sealed record WireState(bool IsOn, LocalDate? PutOn, LocalDate? LastLook, bool IsTight, bool IsSinceCut)
{
    private static readonly string[] Cuts = ["cut-back", "outline-trim", "leader-change"];

    internal static WireState Of(TreeYear year)
    {
        var log = year.Log;
        var removals = log.Ever("wiring/remove").ToList();
        var on = log.Ever("wiring/apply").Concat(log.Ever("wiring/heavy-bend"))
            .Where(wiring => !removals.Exists(removal => removal.Date > wiring.Date && IsAt(removal, wiring)))
            .Select(wiring => wiring.Date).Order().ToList();
        var looked = year.Seen.LastOn(seen => seen.WireTight is not null || seen.WireBiting is not null);
        // Wire that is off was not seen since.
        if (removals.LastOrDefault(removal => removal.Branch is null && removal.CrownZone is null) is { } all && looked <= all.Date)
            looked = null;
        if (on.Count == 0 && looked is null && !IsTold(year))
            return new WireState(false, null, null, false, false);
        LocalDate? putOn = on.Count > 0 ? on[0] : null;
        var look = Latest([on.Count > 0 ? on[^1] : null, log.Ever("wiring/check").LastOrDefault()?.Date, looked]);
        var cut = Latest(Cuts.Select(technique => log.Ever(technique).LastOrDefault()?.Date).Where(date => !(date < putOn)));
        var tight = looked is not null
            && (year.Seen.Latest(seen => seen.WireBiting) == true || year.Seen.Latest(seen => seen.WireTight) == true);
        return new WireState(true, putOn, Latest([look, cut]), tight, cut > look || cut is not null && look is null);
    }

    // The owner may say that a branch is wired without logging when.
    private static bool IsTold(TreeYear year) => year.Branch is { } branch
        ? branch.Wired == true
        : year.Part.IsWhole && year.Tree.Branches.Any(branch => branch.Wired == true);

    private static bool IsAt(WorkRecord removal, WorkRecord wiring) =>
        removal is { Branch: null, CrownZone: null } || removal.Branch == wiring.Branch && removal.CrownZone == wiring.CrownZone;

    private static LocalDate? Latest(IEnumerable<LocalDate?> dates) => dates.Max();
}
