using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// Situations that a catalog rule may ask for in its <c>for</c> list. A closed set: a name that is not here is a fault.
/// </summary>
public static class Situation
{
    private const int NeedleTips = 33;

    private static readonly Dictionary<string, Func<TreeYear, bool>> All = new()
    {
        // Pinched in this flush, or about to be; an owner may choose to wait for hardened leaves all the same.
        ["pinched-this-flush"] = year => year.Setting("4") != "hardened" && (year.IsDoneOrDoing("tip-pinch") || year.PlanOf("tip-pinch") is not null),
        ["stripped-this-season"] = year => year.IsDoneOrDoing("pre-push-defoliation"),
        ["roots-rot"] = year => year.HasRottingRoots,
        ["late-repotting-chosen"] = year => year.Setting("14") is "yes" or "true" or "late-season",
        ["outline-free"] = year => year.Setting("outline", "2") is "free",
        ["wire-tight"] = year => year.Wire.IsTight,
        ["wired"] = year => year.Wire.IsOn,
        // Wire on a dormant tree, unless a cut since then makes the wood thicken.
        ["wire-at-rest"] = year => year.Dormant() == Truth.Yes && !year.Wire.IsSinceCut,
        ["wire-in-late-season"] = year => year.IsLateSeason && year.Dormant() != Truth.Yes,
        ["dormant"] = year => year.Dormant() == Truth.Yes,
        ["growing"] = year => year.Dormant() != Truth.Yes,
        ["growing-early"] = year => year.Dormant() != Truth.Yes && !year.IsLateSeason,
        ["wounds-need-dry"] = year => year.Species.Attributes.Contains("prunus") || year.Setting("canker-prone") is "yes" or "true",
        ["in-leaf"] = year => year.Group is { DormancyCut: false } || year.Dormant() != Truth.Yes && year.Reached(9) != Truth.No,
        ["needs-relief"] = year => year.NeedsRelief,
        ["bleeding-avoided"] = year => year.Setting("12") != "harmless",
        ["cuts-all-sealed"] = year => year.Setting("13") == "all",
        ["big-cuts-sealed"] = year => year.Setting("13") is null or "big",
        ["cuts-not-sealed"] = year => year.Setting("13") == "none",
        ["needles-plucked-last-autumn"] = year => year.Log.YearsAgo(1, "needle-plucking").Any(),
        ["sap-rising"] = year => year.Setting("12") != "harmless" && year.Species.Attributes.Contains("bleeder") && year.Hardened() != Truth.Yes
            && new Triggers.MidDormancyTrigger().Today(year, Side.Opening) != Truth.No,
        ["flowers-taken"] = year => year.Log.Last("flower-fruit-removal") is not null,
        ["base-soft"] = year => year.Seen.Soft == true && year.Seen.BaseFirm != true,
        ["too-late-to-cut-back"] = year => new DaysToFrostTrigger((int)year.Thresholds.GreenCutDays.Value).Today(year, Side.Closing) == Truth.Yes,
        ["too-late-to-thin-leaves"] = year => new DaysToFrostTrigger((int)year.Thresholds.LeafThinningDays.Value).Today(year, Side.Closing) == Truth.Yes,
        ["base-firm"] = year => year.Seen.BaseFirm == true,
        ["cut-back-leaves-reached"] = year => year.Leaves(4) == Truth.Yes,
        ["roots-rebuilding"] = year => year.RootWork is Trees.Extent.Normal or Trees.Extent.Hard,
        ["recovering"] = year => year.IsRecovering,
        ["pinched-last-spring-only"] = year => PinchedBefore(year) == 1,
        ["bared-lately"] = year => LeafWork.Jobs.Any(work => year.Log.Last(work) is { } done
            && NodaTime.Period.DaysBetween(done.Date, year.Today) <= year.Thresholds.BaredLeafDays.Value),
        ["candles-pinched"] = year => year.Log.Last("candle-pinch") is not null,
        ["candles-removed"] = year => year.Log.Last("decandling") is not null,
        ["leaves-taken"] = year => year.Log.Last("full-defoliation") is not null || year.Log.Last("partial-defoliation") is not null,
        ["rests-after-leaf-removal"] = year => year.Setting("6", "feeding-after-leaf-removal") is not "never-stop",
        ["fed-from-bud-break"] = year => year.Setting("5", "spring-feeding") is "from-bud-break",
        ["late-feeding"] = year => IsOn(year, "16"),
        ["roots-worked"] = year => year.RootWork is not null,
        ["roots-worked-hard"] = year => year.RootWork is Trees.Extent.Hard,
        // Before the move into the winter place, and while it stands there.
        ["winter-not-over"] = year => !year.IsOutAgain,
        ["indoors"] = year => year.IsIndoors,
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
        ["candle-day-by-habit"] = year => year.Setting("8") == "habit" && year.UsualDay("decandling/stage-1") is not null,
        ["pinching-wakes-buds"] = year => IsOn(year, "17"),
        // Only a vigorous tree is stripped whole.
        ["strip-whole-tree"] = year => year.Setting("11") is "whole-tree" or "with-roots" && year.Health == Trees.Health.Vigorous && year.Species.Id.StartsWith("olea-", StringComparison.Ordinal),
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
