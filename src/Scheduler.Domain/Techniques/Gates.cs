using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>A bar with its reason, and when it ends if that is known.</summary>
public sealed record Bar(Reason Reason, Trigger? Until = null);

/// <summary>
/// The rules that hold for every technique before its own are asked: failing and weak trees, new arrivals, root work
/// of the season, the season's budget of heavy work, the cap on leaf area.
/// </summary>
internal static class Gates
{
    /// <param name="technique">The technique.</param>
    /// <param name="mode">Its mode.</param>
    /// <param name="year">The tree.</param>
    /// <param name="load">What it takes out of the tree here, 0-3.</param>
    /// <param name="isDone">Work that is done is not barred for having used up what would allow more of it.</param>
    public static IEnumerable<Bar> Bars(Technique technique, TechniqueMode mode, TreeYear year, int load, bool isDone)
    {
        if (load == 0 || mode.Relieves || technique.Id == "repotting" && mode.Id == "light" && year.HasRottingRoots)
            yield break;
        if (year.Health == Health.Failing)
            yield return new Bar(year.Because("weak-or-recovering", "The tree is failing. Only care, and dead or diseased parts off."));
        else if (year.IsRecovering)
            yield return new Bar(year.Because("weak-or-recovering", ArrivalText(year)));
        if (year.Seen.PestSigns)
            yield return new Bar(year.Because("pest-found"));
        if (load >= 2 && year.Whole.Seen.FrostedLeaves)
        {
            var frosted = year.Because("weak-or-recovering", "Frost took its young leaves this spring. Only light work until next season.");
            yield return new Bar(frosted, new SeasonTrigger("next-season"));
        }
        if (RootWorkBar(technique, mode, year) is { } roots)
            yield return roots;
        if (isDone)
            yield break;
        // What a weak tree bears is said above.
        if (year.Health > Health.Weak && !LoadBudget.Fits(technique, load, year))
        {
            var used = year.Because("too-soon-since-heavy-work", "The season's share of heavy work is used up.");
            yield return new Bar(used, new SeasonTrigger("next-season"));
        }
        if (LeafAreaCap.Binds(technique, mode) && LeafAreaCap.LeftPercent(technique.Id, year) < year.Thresholds.LeastLeafWorkPercent.Value)
        {
            var days = LeafAreaCap.DaysUntilRoom(technique.Id, year);
            var lost = year.Because("too-soon-since-heavy-work", "It has lost as much leaf as it can bear for six weeks.");
            yield return new Bar(lost, new DaysTrigger(days, days));
        }
    }

    /// <summary>What root work of this season limits without barring it; null: nothing.</summary>
    public static string? RootWorkLimit(Technique technique, TechniqueMode mode, TreeYear year) =>
        Effect(mode.RootWork ?? technique.RootWork, year.RootWork) != RootWorkEffect.Limit ? null : technique.Id switch
        {
            "tip-pinch" => "Root work was light this season, so only strong shoots at the top.",
            "pre-push-defoliation" => "Root work was light this season, so only some branches, never the whole tree.",
            _ => "Root work is recent, so rather take the flowers off than the shoots."
        };

    /// <summary>Indoors new growth is forced only in light and warmth. Null: nothing in the way; else why it waits.</summary>
    public static (Verdict Verdict, string Text)? IndoorsWait(Technique technique, TreeYear year)
    {
        if (!year.IsIndoors || !technique.ForcesGrowth)
            return null;
        if (!year.Group.GrowsWheneverWarm)
            return (Verdict.Wait, "It stands indoors, where this kind of tree is not forced.");
        if (year.TodayDay >= year.BackstopDay || year.TodayDay < year.ShortestDay)
            return (Verdict.Wait, "Days are too short; wait until they lengthen.");
        if (year.Garden.RoomMinC is not { } room)
            return (Verdict.Ask, "How cold does the room get at night?");
        return room < year.Thresholds.RoomMinC.Value ? (Verdict.Wait, "The room is too cold at night.") : null;
    }

    private static string? ArrivalText(TreeYear year) => year.IsNewlyArrived && year.Health > Health.Weak
        ? "It was collected, imported, grafted or badly dried within two growing seasons and only recovers."
        : null;

    private static Bar? RootWorkBar(Technique technique, TechniqueMode mode, TreeYear year)
    {
        var rule = mode.RootWork ?? technique.RootWork;
        if (Effect(rule, year.RootWork) == RootWorkEffect.Bar)
            return new Bar(year.Because("roots-rebuilding"), new SeasonTrigger(technique.BarredUntil));
        return rule.HardBarsNextSeason && year.Log.RootWork(1) == Extent.Hard
            ? new Bar(year.Because("too-soon-since-heavy-work", "Hard root work last season."), new SeasonTrigger(technique.BarredUntil))
            : null;
    }

    private static RootWorkEffect Effect(RootWorkRule rule, Extent? extent) => extent switch
    {
        null or Extent.None => RootWorkEffect.Pass,
        Extent.Light => rule.Light,
        Extent.Hard => rule.Hard,
        _ => rule.Normal
    };
}
