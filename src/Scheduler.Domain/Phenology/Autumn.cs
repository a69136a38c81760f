namespace Scheduler.Domain.Phenology;

/// <summary>
/// When growth ends. Deciduous trees: half the leaves have fallen (BBCH 95) once the day is shorter than a limit and the
/// mean of ten days is below a limit; the fall begins ten days before and ends ten days after. Evergreens rest (97) once
/// the mean minimum of ten days is below a limit. What grows whenever it is warm never rests.
/// </summary>
/// <remarks>
/// Day length starts senescence and cold speeds it (Delpierre et al., Agric. For. Meteorol. 149, 2009); the limits and the ten
/// days from the first to half and from half to the last leaf are estimates.
/// </remarks>
public static class Autumn
{
    private const int Window = 10;
    private const int LeastKnownDays = 5;
    private const int DaysToHalf = 10;
    private const int DaysFromHalfToAll = 10;
    private const int LatestRestAfterHeatStart = 31;

    /// <summary>Axis day of a code from 93 to 97 in the autumn that ends this growth year; infinity: not this season.</summary>
    public static double DayOf(int bbch, GrowthScale scale, SeasonEnsemble season, SeasonMember member)
    {
        ArgumentNullException.ThrowIfNull(scale);
        ArgumentNullException.ThrowIfNull(season);
        return DayOf(bbch, scale, season, member, season.Year.MidsummerDay, int.MaxValue);
    }

    /// <summary>Axis day on which rest began before this growth year's spring: all leaves down, or evergreens at rest.</summary>
    public static double RestBegan(GrowthScale scale, SeasonEnsemble season, SeasonMember member)
    {
        ArgumentNullException.ThrowIfNull(scale);
        ArgumentNullException.ThrowIfNull(season);
        return DayOf(97, scale, season, member, Window, season.Year.HeatStartDay + LatestRestAfterHeatStart);
    }

    /// <summary>Days from the one code to the other, for a fall that has been seen to begin.</summary>
    internal static int DaysBetween(int from, int to) => FromHalf(to) - FromHalf(from);

    private static double DayOf(int bbch, GrowthScale scale, SeasonEnsemble season, SeasonMember member, int from, int until)
    {
        if (scale.Species.GrowsWheneverWarm)
            return double.PositiveInfinity;
        var end = Math.Min(member.Days, until);
        if (!scale.Species.IsDeciduous)
            return bbch == 97 ? EvergreenRest(scale.Rules, member, from, end) : double.PositiveInfinity;
        return HalfFallen(scale.Rules, season, member, from, end) + FromHalf(bbch);
    }

    private static int FromHalf(int bbch) => bbch switch
    {
        93 => -DaysToHalf,
        97 => DaysFromHalfToAll,
        _ => 0
    };

    private static double HalfFallen(GrowthRules rules, SeasonEnsemble season, SeasonMember member, int from, int end)
    {
        for (var day = from; day < end; day++)
        {
            if (season.Light.Hours[day] < rules.LeafFallDayLengthHours.Value
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
