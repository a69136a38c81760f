namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>In refinement only for strong shoots that the spring work missed.</summary>
public sealed class MissedShootsOnly : Condition
{
    public override string Id => "missed-shoots-only";

    public override Outcome Test(TreeYear year)
    {
        if (year.AnswersLike is "FOB" or "FOL" or "AZA" or "FNW")
            return Outcome.Pass;
        if (PinchingWanted.LetsRun(year))
            return Outcome.Limit("To the outline; you let it run instead of pinching.");
        var spring = year.AnswersLike switch { "FSH" => "early-clip", "YEW" or "DCN" => "conifer-tips", _ => "tip-pinch" };
        if (year.Log.Last(spring) is not null)
            return Outcome.Leave("only-missed-shoots");
        return Closed(year, spring) switch
        {
            Truth.Yes => Outcome.Limit("Strong shoots only, those the spring work missed."),
            Truth.No => Outcome.Leave("only-missed-shoots"),
            _ => Outcome.Ask("Look whether shoots have run past the spring work.")
        };
    }

    private static Truth Closed(TreeYear year, string spring)
    {
        var rule = year.Craft.Find(spring)?.ModesFor(year.GroupCode)[0].Windows.FirstFor(year);
        return rule?.Closes is { } closes ? closes.Today(year, Side.Closing) : year.Hardened();
    }
}
