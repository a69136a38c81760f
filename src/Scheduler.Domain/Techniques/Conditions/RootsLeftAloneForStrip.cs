using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>No root work beyond the light kind in the spring of a leaf strip; none at all where the whole tree is stripped.</summary>
public sealed class RootsLeftAloneForStrip : Condition
{
    public override string Id => "roots-left-alone-for-strip";

    public override Outcome Test(TreeYear year) => year.RootWork is Extent.Normal or Extent.Hard || year.RootWork == Extent.Light && Situation.Holds("strip-whole-tree", year)
        ? Outcome.Bar("strip-and-roots-apart", until: new SeasonTrigger("next-spring"))
        : Outcome.Pass;
}
