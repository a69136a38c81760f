using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>
/// Root work has come due by its interval and the look at standing water and lifting roots does not say otherwise, or the
/// owner asks for it. Common practice, no source: only a tree that needs it is repotted.
/// </summary>
public sealed class RootWorkDue : Condition
{
    private const string NotWanted = "not-wanted-by-goal";

    public override string Id => "root-work-due";

    public override Outcome Test(TreeYear year)
    {
        if (year.IsRequested("repotting"))
            return Outcome.Pass;
        var needed = Needed(year);
        if (needed == false)
            return Outcome.Leave(NotWanted, "Water drains and no roots lift the ball, so it does not need new soil yet.");
        if (year.Log.SeasonsSince("repotting") is not { } seasons)
            return needed == true ? Outcome.Pass
                : Outcome.Leave(NotWanted, "No sign of need was reported. If water stands for over 30 seconds or roots lift the ball, log that.");
        var (low, high) = Interval(year);
        if (seasons < low)
            return Outcome.Leave(NotWanted, needed == true
                ? "It needs room, but the usual interval since the last root work is not over. Ask for it if it cannot wait."
                : "The usual interval is not over and no sign of need was reported.");
        return seasons >= high || needed == true
            ? Outcome.Pass
            : Outcome.Ask("Does water stand for over 30 seconds, or do roots lift the ball? Only then repot; log what you see.");
    }

    internal static bool IsDue(TreeYear year)
    {
        if (year.IsRequested("repotting"))
            return true;
        return Needed(year) switch
        {
            false => false,
            true => year.Log.SeasonsSince("repotting") is not { } seasons || seasons >= Interval(year).Low,
            null => year.Log.SeasonsSince("repotting") is { } since && since >= Interval(year).High
        };
    }

    // What was seen before the last root work says nothing of the new soil.
    private static bool? Needed(TreeYear year)
    {
        var from = year.Today.PlusDays(-(int)year.Thresholds.RootTestDays.Value);
        return year.Whole.Seen.RootsNeedRoom(year.Log.LastRootWork is { } last && last >= from ? last.PlusDays(1) : from);
    }

    internal static (double Low, double High) Interval(TreeYear year)
    {
        var t = year.Thresholds;
        if (year.Tree.Stage <= TreeStage.BranchBuilding)
            return (t.RepotYoungLow.Value, t.RepotYoungHigh.Value);
        if (year.Tree.Stage == TreeStage.Ramification)
            return (t.RepotRamificationLow.Value, t.RepotRamificationHigh.Value);
        return year.Group.Conifer && !year.Group.DormancyCut
            ? (t.RepotConiferLow.Value, t.RepotConiferHigh.Value)
            : (t.RepotRefinementLow.Value, t.RepotRefinementHigh.Value);
    }
}
