namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// A mean in which near years count more and far-off values less: observers, and the very trees they look at, change over the
/// decades. A year's weight halves with every eight years; Huber weights beyond six days, four rounds from the plain mean.
/// </summary>
public static class NearbyYears
{
    private const double HalvingYears = 8;
    private const double ReachDays = 6;
    private const int Rounds = 4;
    private const int FarthestYears = 200;
    private static readonly double[] Weights = [.. Enumerable.Range(0, FarthestYears + 1).Select(years => Math.Pow(0.5, years / HalvingYears))];

    /// <summary>Weight of one year for another.</summary>
    public static double Weight(int year, int target) => Weights[Math.Min(FarthestYears, Math.Abs(year - target))];

    /// <summary>Plain weighted mean; not a number without values.</summary>
    public static double Mean(IEnumerable<(int Year, double Value)> values, int target) =>
        Mean([.. values.Select(value => (Weight(value.Year, target), value.Value))]);

    /// <summary>The mean that far-off days move little; not a number without values.</summary>
    public static double RobustDay(IReadOnlyCollection<(int Year, double Day)> days, int target)
    {
        ArgumentNullException.ThrowIfNull(days);
        var weighed = days.Select(day => (Weight: Weight(day.Year, target), day.Day)).ToArray();
        var mean = Mean(weighed);
        for (var round = 0; round < Rounds; round++)
            mean = Mean([.. weighed.Select(day => (day.Weight * Math.Min(1, ReachDays / Math.Max(1e-9, Math.Abs(day.Day - mean))), day.Day))]);
        return mean;
    }

    private static double Mean((double Weight, double Value)[] values) =>
        values.Sum(value => value.Weight * value.Value) / values.Sum(value => value.Weight);
}
