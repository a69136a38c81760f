namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Conifers and azaleas make no new leader from bare wood.</summary>
public sealed class LiveShootBecomesLeader : Condition
{
    public override string Id => "live-shoot-becomes-leader";

    public override Outcome Test(TreeYear year) =>
        Outcome.Limit("Only a live shoot that is there already can become the leader; wire it up.");
}
