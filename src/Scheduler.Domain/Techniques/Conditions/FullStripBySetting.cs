using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Full leaf removal only where the owner's setting 3 allows it, on a vigorous tree in ramification.</summary>
public sealed class FullStripBySetting : Condition
{
    public override string Id => "full-strip-by-setting";

    public override Outcome Test(TreeYear year) =>
        Situation.IsOn(year, "3") && year.Health == Health.Vigorous && year.Tree.Stage == TreeStage.Ramification
            ? Outcome.Pass
            : Outcome.Bar("off-by-setting", "Partial defoliation does it with less loss.");
}
