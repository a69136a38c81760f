using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// One course that a growth year took or may take: daily extremes on the axis of the growth year, and their running
/// heat [C*d above 5 and 10], spring warmth [C*d above 5, weighted by day length, from the heat start] and chill
/// [portions, until midsummer] at the end of each day. Day 0 is the axis' first day. A missing day (NaN) adds nothing.
/// </summary>
public sealed class SeasonMember
{
    private const double BaseC = 5;
    private IndexCourse? _development;
    // Lowest minimum up to each day, so that a first cold night is found by halves.
    private double[]? _lowestC;

    /// <param name="traceYear">The year whose weather stands in for days still unknown; the growth year itself when all is known.</param>
    /// <param name="minC">Daily minima from the axis' first day on; may end before the axis does.</param>
    /// <param name="maxC">Daily maxima, as many.</param>
    /// <param name="light">Day lengths of the same axis.</param>
    public SeasonMember(int traceYear, double[] minC, double[] maxC, SeasonLight light)
        : this(traceYear, minC, maxC, light, [], default)
    {
    }

    /// <param name="chillBefore">Chill at the end of each of the first days, where another member has it already.</param>
    /// <param name="state">The chill model after those days.</param>
    internal SeasonMember(
        int traceYear, double[] minC, double[] maxC, SeasonLight light, ReadOnlySpan<double> chillBefore, TabulatedChill state)
    {
        ArgumentNullException.ThrowIfNull(light);
        TraceYear = traceYear;
        MinC = minC;
        MaxC = maxC;
        Heat5Cd = new double[minC.Length];
        Heat10Cd = new double[minC.Length];
        DegreeDays.Accumulate(minC, maxC, BaseC, Heat5Cd);
        DegreeDays.Accumulate(minC, maxC, 10, Heat10Cd);
        SpringWarmthCd = Warmth(minC, maxC, light);
        ChillPortions = Chill(minC, maxC, light.MidsummerDay, chillBefore, ref state);
    }

    private SeasonMember(SeasonMember from, ReadOnlySpan<int> dayOf)
    {
        TraceYear = from.TraceYear;
        MinC = Picked(from.MinC, dayOf);
        MaxC = Picked(from.MaxC, dayOf);
        Heat5Cd = Picked(from.Heat5Cd, dayOf);
        Heat10Cd = Picked(from.Heat10Cd, dayOf);
        SpringWarmthCd = Picked(from.SpringWarmthCd, dayOf);
        ChillPortions = Picked(from.ChillPortions, dayOf);
    }

    public int TraceYear { get; }
    public double[] MinC { get; }
    public double[] MaxC { get; }
    public double[] Heat5Cd { get; }
    public double[] Heat10Cd { get; }
    /// <summary>Degree-days above 5 C times <see cref="SeasonLight.WarmthWeight"/>, from 1 January (1 July) on: what opens buds.</summary>
    public double[] SpringWarmthCd { get; }
    public double[] ChillPortions { get; }
    public int Days => MinC.Length;

    /// <summary>First day with a minimum at or below this [C]; the number of days if there is none.</summary>
    public int FirstNightAtMost(double limitC)
    {
        var lowest = _lowestC ??= Lowest(MinC);
        int low = 0, high = lowest.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (lowest[middle] <= limitC)
                high = middle;
            else
                low = middle + 1;
        }
        return low;
    }

    /// <summary>The course of the development index; the light is that of the axis the member lies on.</summary>
    public IndexCourse Development(SeasonLight light) => _development ??= new IndexCourse(this, light);

    public double[] HeatCd(int baseC) => baseC == 10 ? Heat10Cd : Heat5Cd;

    /// <summary>First day (with the part of the day) on which heat since a moment of the axis reaches the sum; infinity if never.</summary>
    public double DayOfHeat(int baseC, double fromDay, double sumCd) => DayOf(HeatCd(baseC), fromDay, sumCd);

    /// <summary>The same for spring warmth.</summary>
    public double DayOfSpringWarmth(double fromDay, double sumCd) => DayOf(SpringWarmthCd, fromDay, sumCd);

    /// <summary>Heat gathered up to a moment of the axis (day and part of the day).</summary>
    public static double HeatAt(double[] total, double day)
    {
        ArgumentNullException.ThrowIfNull(total);
        if (day <= 0 || total.Length == 0)
            return 0;
        if (day >= total.Length)
            return total[^1];
        var whole = (int)day;
        var before = whole == 0 ? 0 : total[whole - 1];
        return before + (total[whole] - before) * (day - whole);
    }

    /// <summary>The same course on the axis of another growth year, which may have a 29 February more or less.</summary>
    internal SeasonMember OnAxis(GrowthYear own, GrowthYear other)
    {
        if (own.HasLeapDay == other.HasLeapDay)
            return this;
        var dayOf = new int[other.Days];
        for (var day = 0; day < dayOf.Length; day++)
            dayOf[day] = other.DayIn(day, own);
        return new SeasonMember(this, dayOf);
    }

    /// <summary>First day on which the running total is at least so much; its length if never.</summary>
    internal static int FirstDayWith(ReadOnlySpan<double> total, double sumCd)
    {
        int low = 0, high = total.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (total[middle] < sumCd)
                low = middle + 1;
            else
                high = middle;
        }
        return low;
    }

    private static double[] Lowest(double[] minC)
    {
        var lowest = new double[minC.Length];
        var sofar = double.PositiveInfinity;
        for (var day = 0; day < lowest.Length; day++)
            lowest[day] = sofar = minC[day] < sofar ? minC[day] : sofar;
        return lowest;
    }

    private static double DayOf(double[] total, double fromDay, double sumCd)
    {
        if (double.IsPositiveInfinity(fromDay))
            return fromDay;
        var target = HeatAt(total, fromDay) + sumCd;
        var found = FirstDayWith(total, target);
        if (found >= total.Length)
            return double.PositiveInfinity;
        var before = found == 0 ? 0 : total[found - 1];
        var gain = total[found] - before;
        var day = found + (gain > 0 ? Math.Clamp((target - before) / gain, 0, 0.999) : 0);
        return Math.Max(day, fromDay);
    }

    private static double[] Warmth(double[] minC, double[] maxC, SeasonLight light)
    {
        var total = new double[minC.Length];
        var sumCd = 0.0;
        for (var day = light.HeatStartDay; day < total.Length; day++)
        {
            var heatCd = (minC[day] + maxC[day]) / 2 - BaseC;
            if (heatCd > 0)
                sumCd += heatCd * light.WarmthWeight[day];
            total[day] = sumCd;
        }
        return total;
    }

    // Cold after midsummer serves the next spring, which has an axis of its own.
    internal static double[] Chill(double[] minC, double[] maxC, int until, ReadOnlySpan<double> before, ref TabulatedChill state)
    {
        var total = new double[minC.Length];
        var end = Math.Min(until, total.Length);
        var start = Math.Min(before.Length, end);
        before[..start].CopyTo(total);
        state.StepDays(minC.AsSpan(start, end - start), maxC.AsSpan(start, end - start), total.AsSpan(start, end - start));
        if (end > 0)
            total.AsSpan(end).Fill(total[end - 1]);
        return total;
    }

    private static double[] Picked(double[] values, ReadOnlySpan<int> dayOf)
    {
        var picked = new double[dayOf.Length];
        for (var day = 0; day < picked.Length; day++)
            picked[day] = values[dayOf[day]];
        return picked;
    }
}
