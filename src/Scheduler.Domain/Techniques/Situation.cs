using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// Situations that a catalog rule may ask for in its <c>for</c> list. A closed set: a name that is not here is a fault.
/// </summary>
public static class Situation
{
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
        ["pinched-two-springs-running"] = year => PinchedBefore(year) == 2,
        // Thinning goes before other leaf work after a pinch, until the flush has hardened and one is chosen by the day.
        ["thinning-first"] = year => year.IsDoneOrDoing("tip-pinch") && year.PlanOf("leaf-thinning") is not null && year.Hardened() != Truth.Yes,
        ["light-root-work"] = year => year.RootWork == Trees.Extent.Light,
        ["cut-back-this-season"] = year => year.IsDoneOrDoing("cut-back"),
        ["candles-cut-this-season"] = year => year.IsDoneOrDoing("decandling"),
        ["before-needles-show"] = year => new CandleTrigger("C2").Today(year, Side.Closing) != Truth.Yes,
        ["all-candles-on-one-day"] = year => year.Setting("7") == "one-day",
        ["weak-candles-first"] = year => year.Setting("7") == "weak-first",
        ["candles-in-two-visits"] = year => year.Setting("7") != "one-day",
        ["candle-day-by-days"] = year => year.Setting("8") == "days",
        ["needles-harden-first"] = year => IsOn(year, "9"),
        ["juniper-tips-by-hand"] = year => IsOn(year, "10"),
        ["two-buds-everywhere"] = year => year.Setting("18") == "always-two",
    };

    public static IReadOnlyCollection<string> Names => All.Keys;

    public static bool Holds(string name, TreeYear year) => All[name](year);

    /// <summary>The owner chose yes on a point that is off by default.</summary>
    internal static bool IsOn(TreeYear year, string setting) => year.Setting(setting) is "yes" or "true";

    /// <summary>Springs in a row, up to the last one, in which the tree was pinched.</summary>
    internal static int PinchedBefore(TreeYear year)
    {
        var springs = 0;
        while (springs < 9 && year.Log.YearsAgo(springs + 1, "tip-pinch").Any())
            springs++;
        return springs;
    }
}
