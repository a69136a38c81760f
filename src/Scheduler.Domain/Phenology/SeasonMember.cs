using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// One course that a growth year took or may take: daily extremes on the axis of the growth year, and their running
/// heat [C*d above 5 and 10] and chill [portions] at the end of each day. Day 0 is the axis' first day.
/// </summary>
public sealed class SeasonMember
{
    /// <param name="traceYear">The year whose weather stands in for days still unknown; the growth year itself when all is known.</param>
    public SeasonMember(int traceYear, double[] minC, double[] maxC)
    {
        TraceYear = traceYear;
        MinC = minC;
        MaxC = maxC;
        Heat5Cd = new double[minC.Length];
        Heat10Cd = new double[minC.Length];
        ChillPortions = new double[minC.Length];
        DegreeDays.Accumulate(minC, maxC, 5, Heat5Cd);
        DegreeDays.Accumulate(minC, maxC, 10, Heat10Cd);
        AccumulateChill();
    }

    public int TraceYear { get; }
    public double[] MinC { get; }
    public double[] MaxC { get; }
    public double[] Heat5Cd { get; }
    public double[] Heat10Cd { get; }
    public double[] ChillPortions { get; }
    public int Days => MinC.Length;

    public double[] HeatCd(int baseC) => baseC == 10 ? Heat10Cd : Heat5Cd;

    /// <summary>First day (with the part of the day) on which heat since the end of day <paramref name="fromDay"/> reaches the sum; infinity if never.</summary>
    public double DayOfHeat(int baseC, double fromDay, double sumCd)
    {
        if (double.IsPositiveInfinity(fromDay))
            return fromDay;
        var total = HeatCd(baseC);
        var target = HeatAt(total, fromDay) + sumCd;
        var low = Math.Max(0, (int)Math.Floor(fromDay));
        var found = Array.BinarySearch(total, low, Math.Max(0, total.Length - low), target);
        if (found < 0)
            found = ~found;
        while (found > low && total[found - 1] >= target)
            found--;
        if (found >= total.Length)
            return double.PositiveInfinity;
        var before = found == 0 ? 0 : total[found - 1];
        var gain = total[found] - before;
        var day = found + (gain > 0 ? Math.Clamp((target - before) / gain, 0, 0.999) : 0);
        return Math.Max(day, fromDay);
    }

    /// <summary>Heat gathered up to a moment of the axis (day and part of the day).</summary>
    public static double HeatAt(double[] total, double day)
    {
        if (day <= 0 || total.Length == 0)
            return 0;
        var whole = Math.Min((int)Math.Floor(day), total.Length - 1);
        var before = whole == 0 ? 0 : total[whole - 1];
        return before + (total[whole] - before) * Math.Min(day - Math.Floor(day), 1);
    }

    private void AccumulateChill()
    {
        Span<double> hours = stackalloc double[24];
        var chill = new DynamicModel();
        for (var day = 0; day < Days; day++)
        {
            if (!double.IsNaN(MinC[day]))
            {
                HourlyCurve.DaySine(MinC[day], MaxC[day], hours);
                foreach (var hourC in hours)
                    chill.Step(hourC);
            }
            ChillPortions[day] = chill.Portions;
        }
    }
}
