namespace Scheduler.Domain.Phenology;

/// <summary>
/// Cooling of the weeks before leaves color or fall [C, mean over a fixed span]: what daily means fall short of 20 C, times 12 h
/// / day length, from 1 August (1 February) until five days before the usual date.
/// </summary>
/// <remarks>
/// After Delpierre et al., Agric. For. Meteorol. 149 (2009): senescence gathers cold below a base, and shorter days speed it; here
/// linear in both. Base 20 C and the five days are this project's, from ginkgo and Japanese maple in Korea; bases of 18 to
/// 22 C do as well. Missing days count nothing.
/// </remarks>
public static class AutumnCooling
{
    private const double BaseC = 20;
    private const double EquinoxHours = 12;
    private const int FirstDay = 334;
    private const int EndsBefore = 5;
    private const int ShortestSpan = 20;

    /// <summary>Mean cooling until <paramref name="lastDay"/>; what lies beyond counts nothing, so compare years cut off alike. NaN if over half of the days are missing.</summary>
    /// <param name="minC">Daily minima on the axis of the growth year.</param>
    /// <param name="maxC">Daily maxima, as many.</param>
    /// <param name="dayLengthHours">Day lengths of the same axis.</param>
    /// <param name="usualDay">Usual axis day of the phase.</param>
    /// <param name="lastDay">Last axis day to be looked at.</param>
    public static double MeanC(ReadOnlySpan<double> minC, ReadOnlySpan<double> maxC, ReadOnlySpan<double> dayLengthHours, double usualDay, int lastDay = int.MaxValue)
    {
        var end = Math.Max((int)usualDay - EndsBefore, FirstDay + ShortestSpan);
        int days = 0, known = 0;
        var sumC = 0d;
        for (var day = FirstDay; day < end && day <= lastDay; day++)
        {
            days++;
            if (day >= minC.Length || double.IsNaN(minC[day]))
                continue;
            known++;
            sumC += Math.Max(0, BaseC - (minC[day] + maxC[day]) / 2) * EquinoxHours / dayLengthHours[day];
        }
        return known * 2 < days ? double.NaN : sumC / (end - FirstDay);
    }
}
