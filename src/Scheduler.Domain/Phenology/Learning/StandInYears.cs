namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// Past years of a place that stand in for the weather to come, and by how much a date found in one of them is to be shifted:
/// springs have grown warmer since, and a warm or cold month seldom ends on the day of issue.
/// </summary>
/// <remarks>
/// shift = -s (w (y - t) + p (C - mean C)), s from 0 on the last known day to 1 a month later, w the warm bias for each year of age
/// y - t, C the mean temperature of the 30 days up to the last known one and mean C that of the stand-in years. p = 0.3 d/C was
/// read off the development records: between 0.2 and 0.6 serve alike, and slopes learned place by place did no better.
/// </remarks>
internal sealed class StandInYears(SeasonDrivers known, IReadOnlyList<SeasonDrivers> years, int lastDay, ClockRules rules)
{
    /// <summary>Near years first; older ones than these add nothing.</summary>
    public const int Most = 60;
    private const double PersistenceDaysPerC = 0.3;
    private const int RecentDays = 30;
    private const int LeastRecentDays = 10;
    private readonly double _anomalyC = AnomalyC(known, years, lastDay);

    public IReadOnlyList<SeasonDrivers> Years => years;

    /// <summary>The date to be expected this year for one found with the weather of a stand-in year.</summary>
    public double Shifted(double date, SeasonDrivers year) => date - ClockRules.LeadShare(date - lastDay)
        * (rules.WarmBiasDaysPerYear * (known.Year.Year - year.Year.Year) + PersistenceDaysPerC * _anomalyC);

    private static double AnomalyC(SeasonDrivers known, IReadOnlyList<SeasonDrivers> years, int lastDay)
    {
        var usual = years.Select(year => RecentC(year, lastDay)).OfType<double>().ToList();
        return usual.Count == 0 || RecentC(known, lastDay) is not { } now ? 0 : now - usual.Average();
    }

    private static double? RecentC(SeasonDrivers season, int lastDay)
    {
        double sum = 0;
        var count = 0;
        for (var day = Math.Max(0, lastDay - RecentDays + 1); day <= lastDay && day < season.Days; day++)
        {
            var mean = (season.MinC[day] + season.MaxC[day]) / 2;
            if (double.IsNaN(mean))
                continue;
            sum += mean;
            count++;
        }
        return count < LeastRecentDays ? null : sum / count;
    }
}
