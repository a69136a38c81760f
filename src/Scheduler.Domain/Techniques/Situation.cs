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
        ["sap-rising"] = year => year.Species.Attributes.Contains("bleeder") && year.Hardened() != Truth.Yes
            && new Triggers.MidDormancyTrigger().Today(year, Side.Opening) != Truth.No,
        ["flowers-taken"] = year => year.Log.Last("flower-fruit-removal") is not null,
        ["base-soft"] = year => year.Seen.Soft == true && year.Seen.BaseFirm != true,
        ["base-firm"] = year => year.Seen.BaseFirm == true,
        ["cut-back-leaves-reached"] = year => year.Leaves(4) == Truth.Yes,
        ["roots-rebuilding"] = year => year.RootWork is Trees.Extent.Normal or Trees.Extent.Hard,
        ["branch-wired"] = year => year.Branch?.Wired == true,
        ["recovering"] = year => year.IsRecovering,
        ["pinched-last-spring-only"] = year => PinchedBefore(year) == 1,
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
