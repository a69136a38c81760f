namespace Scheduler.Domain.Phenology.Learning;

/// <summary>What one growth point of a species needs in one garden: a threshold per shape of the development index.</summary>
/// <param name="Bbch">The growth point.</param>
/// <param name="UsualDay">Its usual axis day here.</param>
/// <param name="Shapes">Shapes of the plant's group with the day their counting starts and the threshold they must cross.</param>
/// <param name="Variance">How uncertain the threshold is, in squared index units.</param>
/// <param name="RatePerDay">How fast the index rises about the usual day: turns thresholds into days.</param>
/// <param name="Springs">Own springs behind it; 0: taken from the catalog, neighboring growth points and relatives.</param>
public sealed record CodeClock(
    int Bbch, double UsualDay, IReadOnlyList<(IndexShape Shape, int StartDay, double Threshold)> Shapes, double Variance, double RatePerDay, int Springs)
{
    // A crossing counts from the middle of its day, an axis day from its begin.
    private const double MiddleOfDay = 0.5;

    /// <summary>Spread of forecasts around what comes, with the weather known [d].</summary>
    public double ErrorDays { get; init; }

    /// <summary>How far the clock is trusted over the usual date: date = usual + slope * (crossing - usual).</summary>
    public double Slope { get; init; } = 1;

    /// <summary>Axis day in each course of the weather, the shapes' mean; infinity when most shapes never get there.</summary>
    public double[] DaysIn(CourseSet courses)
    {
        ArgumentNullException.ThrowIfNull(courses);
        var sums = new double[courses.Count];
        Span<int> reached = courses.Count <= 64 ? stackalloc int[courses.Count] : new int[courses.Count];
        foreach (var (shape, start, threshold) in Shapes)
        {
            var all = courses.Of(shape);
            for (var member = 0; member < all.Length; member++)
            {
                var day = all[member].Crossing(start, threshold);
                if (!double.IsFinite(day))
                    continue;
                sums[member] += day;
                reached[member]++;
            }
        }
        for (var member = 0; member < sums.Length; member++)
        {
            sums[member] = reached[member] * 2 > Shapes.Count
                ? UsualDay + Slope * (sums[member] / reached[member] - UsualDay) + MiddleOfDay
                : double.PositiveInfinity;
        }
        return sums;
    }
}
