namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Branches are bare along their length.</summary>
public sealed class BareAlongLength : Condition
{
    public override string Id => "bare-along-length";

    public override Outcome Test(TreeYear year)
    {
        if (Situation.Holds("strip-whole-tree", year))
            return Outcome.Pass;
        if (!year.Seen.Any(seen => seen.BareAlongLength is not null))
            return Outcome.Limit("Only branches that are bare along their length, with leaf at the ends.");
        return year.Seen.Any(seen => seen.BareAlongLength is "yes" or "partly")
            ? Outcome.Pass
            : Outcome.Leave("not-wanted-by-goal", "No branch is bare along its length.");
    }
}
