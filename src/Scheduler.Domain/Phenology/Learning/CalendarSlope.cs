namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// How far forecasts at one place deserve trust over the calendar: forecast = usual + slope * (clock - usual), with the
/// slope learned from forecasts of past years that did not see the year they forecast, and the errors left over. A plant
/// that clearly follows less than the others has a slope of its own (<see cref="PlantSlope"/>).
/// </summary>
/// <remarks>
/// Ridge regression through the origin, prior slope m with the weight of n years: (N mean(a x) + n m mean(x^2)) /
/// ((N + n) mean(x^2)); N counts years, as plants of one spring share its error.
/// </remarks>
public sealed class CalendarSlope
{
    private const double LargestDeviationDays = 25;
    private const double LargestErrorDays = 16;
    private const double LeastVariance = 4;
    private readonly Dictionary<string, double> _plants;
    private readonly Dictionary<SeriesKey, List<(int Year, double Days)>> _errors;

    private CalendarSlope(double value, Dictionary<string, double> plants, Dictionary<SeriesKey, List<(int Year, double Days)>> errors, double unitVariance)
    {
        (Value, _plants, _errors, UnitVariance) = (value, plants, errors, unitVariance);
    }

    /// <summary>Slope of the place.</summary>
    public double Value { get; }

    /// <summary>Slope of one plant, in all its phases of the group.</summary>
    public double Of(SeriesKey key) => _plants.GetValueOrDefault(key.Kind, Value);

    /// <summary>Mean squared error of the place [d^2].</summary>
    public double UnitVariance { get; }

    /// <summary>What was left over in each year of a series [d].</summary>
    internal IReadOnlyList<(int Year, double Days)> ErrorsOf(SeriesKey key) => _errors.GetValueOrDefault(key) ?? [];

    public static CalendarSlope Untrained(ClockRules rules) => new(1, [], [], rules.PriorErrorDays * rules.PriorErrorDays);

    public double Date(TrainedSeries series, double crossingDay) => series.UsualDay + Of(series.Key) * (crossingDay - series.UsualDay);

    public static CalendarSlope Fit(IEnumerable<(TrainedSeries Series, IReadOnlyList<PhaseDate> Dates)> unit, ClockRules rules)
    {
        var pairs = new List<Pair>();
        var years = new HashSet<int>();
        foreach (var (series, dates) in unit.Where(member => member.Dates.Count >= 2))
        {
            for (var year = 0; year < dates.Count; year++)
            {
                var season = series.Site.Season(dates[year].Year);
                var clock = series.CrossingDay(season, season, int.MaxValue, year);
                if (!double.IsFinite(clock))
                    continue;
                var calendar = (series.UsualDay * dates.Count - dates[year].Day) / (dates.Count - 1);
                pairs.Add(new Pair(series.Key, dates[year].Year, dates[year].Day - calendar, clock - calendar));
                years.Add(dates[year].Year);
            }
        }
        if (pairs.Count == 0)
            return Untrained(rules);
        var ax = pairs.Average(pair => Clamped(pair.Seen) * pair.Clock);
        var xx = Math.Max(1e-6, pairs.Average(pair => pair.Clock * pair.Clock));
        var value = Math.Clamp((years.Count * ax + rules.SlopeYears * rules.SlopePrior * xx) / ((years.Count + rules.SlopeYears) * xx), 0, 1.25);
        var variance = Math.Max(LeastVariance, MeanSquare(pairs, value));
        var plants = pairs.GroupBy(pair => pair.Key.Kind)
            .ToDictionary(plant => plant.Key, plant => PlantSlope.Of(value, variance, plant.Select(pair => pair.Year).Distinct().Count(), slope => MeanSquare(plant, slope)));
        var errors = pairs
            .GroupBy(pair => pair.Key, pair => (pair.Year, Days: Math.Clamp(pair.Seen - plants[pair.Key.Kind] * pair.Clock, -LargestErrorDays, LargestErrorDays)))
            .ToDictionary(group => group.Key, group => group.ToList());
        var all = errors.Values.SelectMany(list => list).ToList();
        var prior = rules.PriorErrorDays * rules.PriorErrorDays;
        return new CalendarSlope(value, plants, errors, (all.Sum(error => error.Days * error.Days) + 3 * prior) / (all.Count + 3));
    }

    // How far off the calendar the date and the clock were, in a year neither had seen [d].
    private readonly record struct Pair(SeriesKey Key, int Year, double Seen, double Clock);

    private static double MeanSquare(IEnumerable<Pair> pairs, double slope) => pairs.Average(pair => Math.Pow(Clamped(pair.Seen) - slope * Clamped(pair.Clock), 2));

    private static double Clamped(double days) => Math.Clamp(days, -LargestDeviationDays, LargestDeviationDays);

    /// <summary>Standard deviation of a forecast of the series with known weather, its threshold taken as certain [d].</summary>
    public double ErrorOf(TrainedSeries series, ClockRules rules)
    {
        var own = _errors.GetValueOrDefault(series.Key) ?? [];
        var variance = (own.Sum(error => error.Days * error.Days) + rules.ErrorYears * UnitVariance) / (own.Count + rules.ErrorYears);
        return rules.ErrorScale * Math.Sqrt(variance);
    }
}
