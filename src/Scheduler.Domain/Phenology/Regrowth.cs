namespace Scheduler.Domain.Phenology;

/// <summary>When a cut or stripped shoot carries new leaves: buds must break first, then leaves follow at the plant's own step.</summary>
public static class Regrowth
{
    /// <summary>Axis day on which shoots cut on this axis day reach a leaf code from 10 to 19 again; infinity: not this season.</summary>
    public static double DayOf(int bbch, GrowthScale scale, SeasonMember member, double cutDay)
    {
        ArgumentNullException.ThrowIfNull(scale);
        ArgumentNullException.ThrowIfNull(member);
        var further = Math.Clamp(bbch - 11, 0, 8);
        return member.DayOfHeat(5, cutDay, scale.Rules.RegrowthLeavesCd.Value + further * scale.LeafStepCd);
    }
}
