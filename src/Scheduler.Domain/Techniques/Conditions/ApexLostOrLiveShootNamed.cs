using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>In the later stages a leader is changed only where the top is lost or the owner wants another one.</summary>
public sealed class ApexLostOrLiveShootNamed : Condition
{
    public override string Id => "apex-lost-or-live-shoot-named";

    public override Outcome Test(TreeYear year)
    {
        if (year.Goals.Contains(Goal.ChangeLeader))
            return Outcome.Limit("Name the live shoot that becomes the leader first.");
        return year.IsRequested("leader-change") ? Outcome.Pass
            : Outcome.Bar("stage-too-early", "Only if the top is lost, or you want another leader and name a live shoot.");
    }
}
