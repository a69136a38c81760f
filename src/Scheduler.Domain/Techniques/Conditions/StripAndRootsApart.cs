using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>No root work beyond the light kind in the spring of a leaf strip.</summary>
public sealed class StripAndRootsApart : Condition
{
    public override string Id => "strip-and-roots-apart";

    public override Outcome Test(TreeYear year) => year.IsDoneOrDoing("pre-push-defoliation")
        ? Outcome.Bar("strip-and-roots-apart", until: new SeasonTrigger("next-spring"))
        : Outcome.Pass;
}
