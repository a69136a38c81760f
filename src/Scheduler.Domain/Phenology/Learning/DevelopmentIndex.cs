namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// The development index of one shape through one season: I(d) = ln(1 + H(d)) + q * CP(d), H the heat sum since the start
/// day, CP chill portions since autumn. It never falls; a phase comes when it crosses the plant's threshold.
/// </summary>
/// <remarks>
/// Form of this project, after thermal time lowered exponentially by chilling (Cannell and Smith, J. Appl. Ecol. 20, 1983)
/// with day length as a multiplier (as in Blumel and Chmielewski, Agric. For. Meteorol. 164, 2012, from memory).
/// </remarks>
public static class DevelopmentIndex
{
    /// <summary>The index half way through an axis day, where a date seen on that day is put.</summary>
    public static double At(SeasonDrivers season, IndexShape shape, int startDay, double day)
    {
        var total = season.Heat(shape);
        var whole = Math.Clamp((int)Math.Floor(day), 1, season.Days - 1);
        double heat = HeatBetween(total, startDay, whole - 1), after = HeatBetween(total, startDay, whole);
        return (Math.Log(1 + heat) + shape.ChillRate * season.ChillPortions[whole - 1]
            + Math.Log(1 + after) + shape.ChillRate * season.ChillPortions[whole]) / 2;
    }

    /// <summary>Axis day, with its part, on which the threshold is crossed; infinity if not within the first 365 days.</summary>
    public static double Crossing(SeasonDrivers season, IndexShape shape, int startDay, double threshold) =>
        Crossing(season, season, int.MaxValue, shape, startDay, threshold);

    /// <summary>The same where days after <paramref name="lastDay"/> come from another season, joined in heat and in chill.</summary>
    public static double Crossing(SeasonDrivers known, SeasonDrivers trace, int lastDay, IndexShape shape, int startDay, double threshold)
    {
        double[] heat = known.Heat(shape), later = ReferenceEquals(known, trace) ? heat : trace.Heat(shape);
        var end = Math.Min(365, Math.Min(known.Days, trace.Days) - 1);
        var joinHeat = lastDay < 0 || lastDay > end ? 0 : HeatBetween(heat, startDay, lastDay) - HeatBetween(later, startDay, lastDay);
        var joinChill = lastDay < 0 || lastDay > end ? 0 : known.ChillPortions[lastDay] - trace.ChillPortions[lastDay];

        // It never falls, so the first day on which it is high enough is found by halving.
        int first = 1, past = end + 1;
        while (first < past)
        {
            var middle = (first + past) / 2;
            if (Index(middle) >= threshold)
                past = middle;
            else
                first = middle + 1;
        }
        if (first > end)
            return double.PositiveInfinity;
        var before = Index(first - 1);
        var gain = Index(first) - before;
        return gain > 0 ? first - 0.5 + (threshold - before) / gain : first;

        double Index(int day) => day <= lastDay
            ? Math.Log(1 + HeatBetween(heat, startDay, day)) + shape.ChillRate * known.ChillPortions[day]
            : Math.Log(1 + joinHeat + HeatBetween(later, startDay, day)) + shape.ChillRate * (trace.ChillPortions[day] + joinChill);
    }

    // Both days counted; nothing before the start.
    private static double HeatBetween(double[] total, int startDay, int day) =>
        day < startDay ? 0 : startDay <= 0 ? total[day] : Math.Max(0, total[day] - total[startDay - 1]);
}
