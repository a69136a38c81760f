using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Evergreens: every branch keeps green, and where frost comes nothing is cut in autumn.</summary>
public sealed class GreenLeftOnBranch : Condition
{
    public override string Id => "green-left-on-branch";

    private static readonly string[] BareWood = ["CYP", "JNS", "JNN", "PN1", "PN2"];

    public override Outcome Test(TreeYear year)
    {
        if (year is { AnswersLike: "EBT", IsAutumn: true, FrostDay: not null })
            return Outcome.Bar("too-late-to-harden", "Cuts on an evergreen do not close before frost.", new SeasonTrigger("late-dormancy"));
        return Outcome.Limit(BareWood.Contains(year.AnswersLike)
            ? "Never take all green off a branch, and never cut back to brown wood: nothing grows from it."
            : "Never take all green off a branch.");
    }
}
