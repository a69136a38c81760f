namespace Scheduler.Domain.Phenology;

/// <summary>
/// When growth ends, by rule. Deciduous trees: half the leaves have fallen (BBCH 95) once the day is shorter than a limit and the
/// mean of ten days is below a limit, some species earlier or later by days of their own; color (92), begin (93) and end (97) of
/// the fall keep fixed distances. Evergreens rest (97) once
/// the mean minimum of ten days is below a limit. What grows whenever it is warm never rests.
/// </summary>
/// <remarks>
/// Day length starts senescence and cold speeds it (Delpierre et al., Agric. For. Meteorol. 149, 2009); the limits and
/// distances are estimates (<see cref="GrowthRules"/>). Where dates of past autumns are known, <see cref="LocalAutumn"/> goes before it.
/// </remarks>
public static class Autumn
{
    private const int Window = 10;
    private const int LeastKnownDays = 5;
    private const int LatestRestAfterHeatStart = 31;

    /// <summary>Axis day of a code from 92 to 97 in the autumn that ends this growth year; infinity: not this season.</summary>
    public static double DayOf(int bbch, GrowthScale scale, SeasonEnsemble season, SeasonMember member)
    {
        ArgumentNullException.ThrowIfNull(scale);
        ArgumentNullException.ThrowIfNull(season);
        return DayOf(bbch, scale, season.Light, member);
    }

    internal static double DayOf(int bbch, GrowthScale scale, SeasonLight light, SeasonMember member) =>
        DayOf(bbch, scale, light, member, light.MidsummerDay, int.MaxValue);

    /// <summary>Axis day on which rest began before this growth year's spring: all leaves down, or evergreens at rest.</summary>
    public static double RestBegan(GrowthScale scale, SeasonEnsemble season, SeasonMember member)
    {
        ArgumentNullException.ThrowIfNull(scale);
        ArgumentNullException.ThrowIfNull(season);
        return DayOf(97, scale, season.Light, member, Window, season.Year.HeatStartDay + LatestRestAfterHeatStart);
    }

    /// <summary>Days from the one code to the other, for a fall that has been seen to begin.</summary>
    internal static double DaysBetween(GrowthRules rules, int from, int to) => FromHalf(rules, to) - FromHalf(rules, from);

    /// <summary>Days from half the leaves down to this code; negative before.</summary>
    internal static double FromHalf(GrowthRules rules, int bbch) => bbch switch
    {
        92 => -rules.LeafColorBeforeHalfDays.Value,
        93 or 94 => -rules.LeafFallStepDays.Value,
        >= 97 => rules.LeafFallStepDays.Value,
        _ => 0
    };

    private static double DayOf(int bbch, GrowthScale scale, SeasonLight light, SeasonMember member, int from, int until)
    {
        if (scale.Species.GrowsWheneverWarm)
            return double.PositiveInfinity;
        var end = Math.Min(member.Days, until);
        if (!scale.Species.IsDeciduous)
            return bbch == 97 ? EvergreenRest(scale.Rules, member, from, end) : double.PositiveInfinity;
        var shift = scale.Species.ThermalTimes.AutumnShiftDays?.Value ?? 0;
        return HalfFallen(scale.Rules, light, member, from, end) + shift + FromHalf(scale.Rules, bbch);
    }

    private static double HalfFallen(GrowthRules rules, SeasonLight light, SeasonMember member, int from, int end)
    {
        for (var day = from; day < end; day++)
        {
            if (light.Hours[day] < rules.LeafFallDayLengthHours.Value
                && MeanC(member.MinC, member.MaxC, day) < rules.LeafFallMeanC.Value)
                return day;
        }
        return double.PositiveInfinity;
    }

    private static double EvergreenRest(GrowthRules rules, SeasonMember member, int from, int end)
    {
        for (var day = from; day < end; day++)
        {
            if (MeanC(member.MinC, member.MinC, day) < rules.EvergreenRestNightC.Value)
                return day;
        }
        return double.PositiveInfinity;
    }

    // Mean of the known ones of ten days up to and including this one; NaN, which is below nothing, if too few are known.
    private static double MeanC(double[] lowC, double[] highC, int day)
    {
        var sumC = 0d;
        var known = 0;
        for (var back = Math.Max(0, day - Window + 1); back <= day; back++)
        {
            if (double.IsNaN(lowC[back]))
                continue;
            sumC += (lowC[back] + highC[back]) / 2;
            known++;
        }
        return known < LeastKnownDays ? double.NaN : sumC / known;
    }
}
