using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Root work has come due by its interval, or the owner asks for it.</summary>
public sealed class RootWorkDue : Condition
{
    public override string Id => "root-work-due";

    public override Outcome Test(TreeYear year)
    {
        if (year.IsRequested("repotting"))
            return Outcome.Pass;
        if (year.Log.SeasonsSince("repotting") is not { } seasons)
            return Outcome.Leave("not-wanted-by-goal", "No sign of need was reported. If water stands for over 30 seconds or roots lift the ball, ask for it.");
        var (low, high) = Interval(year);
        if (seasons < low)
            return Outcome.Leave("not-wanted-by-goal", "The usual interval is not over and no sign of need was reported.");
        return seasons >= high
            ? Outcome.Pass
            : Outcome.Ask("Does water stand for over 30 seconds, or do roots lift the ball? Only then repot; ask for it on the tree.");
    }

    internal static bool IsDue(TreeYear year) =>
        year.IsRequested("repotting") || year.Log.SeasonsSince("repotting") is { } seasons && seasons >= Interval(year).High;

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
