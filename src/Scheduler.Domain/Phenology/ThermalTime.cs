namespace Scheduler.Domain.Phenology;

/// <summary>
/// The plain degree-day form, kept to compare the growth clock with: a phase comes when the sum of max(0, (Tmin + Tmax) / 2 -
/// base) since 1 January (1 July) reaches a fixed need. No chill, no day length.
/// </summary>
/// <remarks>
/// The oldest form of phenology model, after Réaumur 1735 (from memory); base 5 C is common practice for temperate trees.
/// Assumes that daily means stand for plant temperature.
/// </remarks>
public static class ThermalTime
{
    /// <summary>Sum at the end of each axis day [C*d].</summary>
    public static double[] Gathered(ReadOnlySpan<double> minC, ReadOnlySpan<double> maxC, int startDay, double baseC)
    {
        var total = new double[minC.Length];
        var sumCd = 0d;
        for (var day = startDay; day < total.Length; day++)
        {
            var heatCd = (minC[day] + maxC[day]) / 2 - baseC;
            // A missing day adds nothing.
            if (heatCd > 0)
                sumCd += heatCd;
            total[day] = sumCd;
        }
        return total;
    }

    /// <summary>First axis day whose sum is at least the need; null if none.</summary>
    public static int? DayOf(double[] gathered, double need)
    {
        var day = SeasonMember.FirstDayWith(gathered, need);
        return day < gathered.Length ? day : null;
    }
}
