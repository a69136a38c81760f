using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>The return cut exists only in a season of root work beyond the light kind.</summary>
public sealed class SeasonOfRootWork : Condition
{
    public override string Id => "season-of-root-work";

    public override Outcome Test(TreeYear year) => year.RootWork is Extent.Normal or Extent.Hard
        ? Outcome.Pass
        : Outcome.Leave("not-wanted-by-goal", "Only in a season of root work.");
}
