using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>No root work beyond the light kind in the spring of a leaf strip.</summary>
public sealed class RootsLeftAloneForStrip : Condition
{
    public override string Id => "roots-left-alone-for-strip";

    public override Outcome Test(TreeYear year) => year.RootWork is Extent.Normal or Extent.Hard
        ? Outcome.Bar("strip-and-roots-apart", until: new SeasonTrigger("next-spring"))
        : Outcome.Pass;
}
