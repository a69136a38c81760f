namespace Scheduler.Domain.Phenology;

/// <summary>
/// When a growth point comes in one course of the weather. Heat above 5 C from the start of the heat year must reach
/// need * (1 + a * max(0, 1 - chill / chill need)) * exp(local factor).
/// </summary>
/// <remarks>
/// Degree-day form: Cannell and Smith, J. Appl. Ecol. 20 (1983), thermal time that falls with chilling; the linear penalty
/// and its size are estimates of this project. Assumes daily means stand for plant temperature.
/// </remarks>
public static class GrowthClock
{
    /// <summary>By how much too little chill raises the heat a bud needs; 1 when the chill need is met.</summary>
    public static double ChillFactor(GrowthScale scale, double portions)
    {
        var required = scale.Species.ThermalTimes.ChillPortions.Value;
        return required <= 0 ? 1 : 1 + scale.Rules.ShortChillPenalty.Value * Math.Max(0, 1 - portions / required);
    }

    /// <summary>Axis day (with part of the day) of a point counted from the start of the heat year; infinity: not this season.</summary>
    public static double DayFromHeatStart(GrowthScale scale, GrowthYear year, SeasonMember member, double needCd, double factor)
    {
        var required = scale.Species.ThermalTimes.ChillPortions.Value;
        var start = year.HeatStartDay;
        var before = start == 0 ? 0 : member.Heat5Cd[start - 1];
        for (var day = start; day < member.Days; day++)
        {
            var heat = member.Heat5Cd[day] - before;
            var need = needCd * factor * ChillFactor(scale, member.ChillPortions[day]);
            if (heat < need)
                continue;
            if (required > 0 && member.ChillPortions[day] < required * scale.Rules.LeastChillShare.Value)
                return double.PositiveInfinity;
            var gain = day == 0 ? 0 : member.Heat5Cd[day] - member.Heat5Cd[day - 1];
            return day + (gain > 0 ? Math.Clamp(1 - (heat - need) / gain, 0, 0.999) : 0);
        }
        return double.PositiveInfinity;
    }
}
