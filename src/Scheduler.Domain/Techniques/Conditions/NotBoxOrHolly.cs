namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Box and holly leaves are too small to thin.</summary>
public sealed class NotBoxOrHolly : Condition
{
    public override string Id => "not-box-or-holly";

    public override Outcome Test(TreeYear year) =>
        year.Species.Id.StartsWith("buxus", StringComparison.Ordinal) || year.Species.Id.StartsWith("ilex", StringComparison.Ordinal)
            ? Outcome.Bar("not-for-this-group", "The leaf is too small to thin.")
            : Outcome.Pass;
}
