namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Live green under the bark.</summary>
public sealed class LiveUnderBark : Condition
{
    public override string Id => "live-under-bark";

    public override Outcome Test(TreeYear year) => year.Seen.LiveUnderScratch == false
        ? Outcome.Bar("no-buds-on-bare-wood", "No live green under the bark, so nothing would sprout.")
        : Outcome.Pass;
}
