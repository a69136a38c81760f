namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// The development index of one shape through one course of the weather, from any start day: the same numbers as
/// <see cref="DevelopmentIndex"/>, kept as running sums, so that a crossing is found by halving instead of day by day.
/// </summary>
/// <remarks>I(d) >= F is (1 + H(d)) >= exp(F) * exp(-q * CP(d)), so that the search needs no logarithm.</remarks>
public sealed class ShapeCourse
{
    // As in DevelopmentIndex: what has not come within a year of the axis does not come.
    private const int LastDay = 365;
    private readonly double[] _heatBefore;
    private readonly double[] _lowering;

    /// <param name="growth">Daily gain of the heat sum.</param>
    /// <param name="chillPortions">Chill at the end of each day.</param>
    /// <param name="chillRate">What one portion adds to the index.</param>
    internal ShapeCourse(double[] growth, double[] chillPortions, double chillRate)
    {
        var days = Math.Min(growth.Length, LastDay + 1);
        _heatBefore = new double[days + 1];
        _lowering = new double[days];
        for (var day = 0; day < days; day++)
        {
            _heatBefore[day + 1] = _heatBefore[day] + growth[day];
            _lowering[day] = day > 0 && chillPortions[day] == chillPortions[day - 1] ? _lowering[day - 1] : Math.Exp(-chillRate * chillPortions[day]);
        }
    }

    private int Days => _lowering.Length;

    /// <summary>The index half way through an axis day, where a date seen on that day is put.</summary>
    public double At(int startDay, double day)
    {
        var whole = Math.Clamp((int)Math.Floor(day), 1, Days - 1);
        return (AtEndOf(startDay, whole - 1) + AtEndOf(startDay, whole)) / 2;
    }

    /// <summary>Axis day, with its part and counted from its middle, on which the threshold is crossed; infinity: not this season.</summary>
    public double Crossing(int startDay, double threshold)
    {
        var target = Math.Exp(threshold);
        var start = Math.Clamp(startDay, 1, Days);
        int low = start, high = Days;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (1 + _heatBefore[middle + 1] - _heatBefore[start] < target * _lowering[middle])
                low = middle + 1;
            else
                high = middle;
        }
        if (low == Days)
            return double.PositiveInfinity;
        var before = AtEndOf(start, low - 1);
        var gain = AtEndOf(start, low) - before;
        return gain > 0 ? low - 0.5 + Math.Clamp((threshold - before) / gain, 0, 1) : low;
    }

    /// <summary>Heat gathered by a moment of the axis: day and part of the day.</summary>
    public double HeatAt(double day)
    {
        var whole = Math.Clamp((int)Math.Floor(day), 0, Days - 1);
        return _heatBefore[whole] + (_heatBefore[whole + 1] - _heatBefore[whole]) * Math.Clamp(day - whole, 0, 1);
    }

    /// <summary>The moment at which so much heat has been gathered since another moment; infinity if never.</summary>
    public double DayOfHeat(double fromDay, double heat)
    {
        var target = HeatAt(fromDay) + heat;
        var found = SeasonMember.FirstDayWith(_heatBefore, target);
        if (found > Days)
            return double.PositiveInfinity;
        if (found == 0)
            return fromDay;
        var gain = _heatBefore[found] - _heatBefore[found - 1];
        return Math.Max(fromDay, found - 1 + (gain > 0 ? (target - _heatBefore[found - 1]) / gain : 0));
    }

    private double AtEndOf(int startDay, int day) =>
        Math.Log((day < startDay ? 1 : 1 + _heatBefore[day + 1] - _heatBefore[startDay]) / _lowering[day]);
}
