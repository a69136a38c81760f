namespace Scheduler.Domain.Techniques;

/// <summary>
/// Situations that a catalog rule may ask for in its <c>for</c> list. A closed set: a name that is not here is a fault.
/// </summary>
public static class Situation
{
    private static readonly string[] LeafWork = ["outer-leaf-removal", "leaf-thinning", "partial-defoliation", "full-defoliation"];

    private static readonly Dictionary<string, Func<TreeYear, bool>> All = new()
    {
        // Pinched in this flush, or about to be; an owner may choose to wait for hardened leaves all the same.
        ["pinched-this-flush"] = year => year.Setting("4") != "hardened" && (year.IsDoneOrDoing("tip-pinch") || year.PlanOf("tip-pinch") is not null),
        ["stripped-this-season"] = year => year.IsDoneOrDoing("pre-push-defoliation"),
        ["flowers-taken"] = year => year.Log.Last("flower-fruit-removal") is not null,
        ["base-soft"] = year => year.Seen.Soft == true && year.Seen.BaseFirm != true,
        ["base-firm"] = year => year.Seen.BaseFirm == true,
        ["cut-back-leaves-reached"] = year => year.Leaves(4) == Truth.Yes,
        ["roots-rebuilding"] = year => year.RootWork is Trees.Extent.Normal or Trees.Extent.Hard,
        ["recovering"] = year => year.IsRecovering,
        ["pinched-last-spring-only"] = year => PinchedBefore(year) == 1,
        ["bared-lately"] = year => LeafWork.Any(work => year.Log.Last(work) is { } done
            && NodaTime.Period.DaysBetween(done.Date, year.Today) <= year.Thresholds.BaredLeafDays.Value),
        ["candles-pinched"] = year => year.Log.Last("candle-pinch") is not null,
        ["candles-removed"] = year => year.Log.Last("decandling") is not null,
        ["leaves-taken"] = year => year.Log.Last("full-defoliation") is not null || year.Log.Last("partial-defoliation") is not null,
        ["rests-after-leaf-removal"] = year => year.Setting("6", "feeding-after-leaf-removal") is not "never-stop",
        ["fed-from-bud-break"] = year => year.Setting("5", "spring-feeding") is "from-bud-break",
        ["late-feeding"] = year => year.Setting("16", "late-feeding") is "yes" or "true",
        ["roots-worked"] = year => year.RootWork is not null,
        ["roots-worked-hard"] = year => year.RootWork is Trees.Extent.Hard,
        ["indoors"] = year => year.IsIndoors,
        ["pinched-two-springs-running"] = year => PinchedBefore(year) == 2,
    };

    public static IReadOnlyCollection<string> Names => All.Keys;

    public static bool Holds(string name, TreeYear year) => All[name](year);

    /// <summary>Springs in a row, up to the last one, in which the tree was pinched.</summary>
    internal static int PinchedBefore(TreeYear year)
    {
        var springs = 0;
        while (springs < 9 && year.Log.YearsAgo(springs + 1, "tip-pinch").Any())
            springs++;
        return springs;
    }
}
