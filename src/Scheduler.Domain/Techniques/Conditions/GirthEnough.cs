using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>In branch building only on branches that are thick enough. The tree as a whole is not that.</summary>
public sealed class GirthEnough : Condition
{
    public override string Id => "girth-enough";

    public override Outcome Test(TreeYear year) => year.Branch?.Girth == Girth.Enough ? Outcome.Pass : Outcome.Bar("pinching-thins");
}
