namespace Scheduler.Domain.Phenology;

/// <summary>
/// When a growth point comes in one course of the weather: spring warmth W since the start of the heat year must reach
/// need * (1 + a * max(0, 1 - chill / chill need)) * local factor, where W = sum of max(0, (Tmin + Tmax) / 2 - 5) * (L / 12)^3.
/// Under a least share of the chill need it does not come at all.
/// </summary>
/// <remarks>
/// Thermal time that falls with chilling: Cannell and Smith, J. Appl. Ecol. 20 (1983); the linear penalty and its size are
/// estimates of this project. Day-length weight: see <see cref="SeasonLight"/>. The catalog's needs are plain degree-day sums;
/// around the equinox, when most of that heat comes, the two agree, and where winters are mild the weight calls for more plain
/// heat, as is seen there. Assumes that daily means stand for plant temperature.
/// </remarks>
public static class GrowthClock
{
    // Two months after midsummer: what has not opened by then does not open this season.
    private const int LastDayAfterMidsummer = 62;

    /// <summary>By how much too little chill raises the heat a bud needs; 1 when the chill need is met.</summary>
    public static double ChillFactor(GrowthScale scale, double portions)
    {
        ArgumentNullException.ThrowIfNull(scale);
        return ChillFactor(scale.Species.ThermalTimes.ChillPortions.Value, scale.Rules.ShortChillPenalty.Value, portions);
    }

    /// <summary>Axis day (with part of the day) of a point counted from the start of the heat year; infinity: not this season.</summary>
    public static double DayFromHeatStart(GrowthScale scale, GrowthYear year, SeasonMember member, double needCd, double factor)
    {
        ArgumentNullException.ThrowIfNull(scale);
        ArgumentNullException.ThrowIfNull(member);
        var required = scale.Species.ThermalTimes.ChillPortions.Value;
        var penalty = scale.Rules.ShortChillPenalty.Value;
        var leastChill = required * scale.Rules.LeastChillShare.Value;
        double[] warmthCd = member.SpringWarmthCd, portions = member.ChillPortions;
        var end = Math.Min(member.Days, year.MidsummerDay + LastDayAfterMidsummer);
        var start = Math.Max(year.HeatStartDay, SeasonMember.FirstDayWith(warmthCd, needCd * factor));
        for (var day = start; day < end; day++)
        {
            var need = needCd * factor * ChillFactor(required, penalty, portions[day]);
            if (warmthCd[day] < need || portions[day] < leastChill)
                continue;
            var gain = day == 0 ? 0 : warmthCd[day] - warmthCd[day - 1];
            return day + (gain > 0 ? Math.Clamp(1 - (warmthCd[day] - need) / gain, 0, 0.999) : 0);
        }
        return double.PositiveInfinity;
    }

    private static double ChillFactor(double required, double penalty, double portions) =>
        required <= 0 ? 1 : 1 + penalty * Math.Max(0, 1 - portions / required);
}
