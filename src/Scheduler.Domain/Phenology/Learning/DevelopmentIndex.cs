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
        var growth = season.Growth(shape);
        var whole = Math.Clamp((int)Math.Floor(day), 1, season.Days - 1);
        var heat = 0d;
        for (var d = startDay; d < whole; d++)
            heat += growth[d];
        var after = whole >= startDay ? heat + growth[whole] : heat;
        return (Math.Log(1 + heat) + shape.ChillRate * season.ChillPortions[whole - 1]
            + Math.Log(1 + after) + shape.ChillRate * season.ChillPortions[whole]) / 2;
    }

    /// <summary>Axis day, with its part, on which the threshold is crossed; infinity if not within the first 365 days.</summary>
    public static double Crossing(SeasonDrivers season, IndexShape shape, int startDay, double threshold) =>
        Crossing(season, season, int.MaxValue, shape, startDay, threshold);

    /// <summary>The same where days after <paramref name="lastDay"/> come from another season, joined in heat and in chill.</summary>
    public static double Crossing(SeasonDrivers known, SeasonDrivers trace, int lastDay, IndexShape shape, int startDay, double threshold)
    {
        var growth = known.Growth(shape);
        var later = ReferenceEquals(known, trace) ? growth : trace.Growth(shape);
        var end = Math.Min(365, Math.Min(known.Days, trace.Days) - 1);
        var join = lastDay < 0 || lastDay > end ? 0 : known.ChillPortions[lastDay] - trace.ChillPortions[lastDay];
        double heat = 0, before = double.NegativeInfinity;
        for (var day = 0; day <= end; day++)
        {
            if (day >= startDay)
                heat += day <= lastDay ? growth[day] : later[day];
            var chill = day <= lastDay ? known.ChillPortions[day] : trace.ChillPortions[day] + join;
            // The logarithm is only needed near the crossing: chill adds little, so most days are settled by the heat alone.
            var index = Math.Log(1 + heat) + shape.ChillRate * chill;
            if (index >= threshold && day > 0)
            {
                var gain = index - before;
                return gain > 0 && double.IsFinite(gain) ? day - 0.5 + (threshold - before) / gain : day;
            }
            before = index;
        }
        return double.PositiveInfinity;
    }
}
