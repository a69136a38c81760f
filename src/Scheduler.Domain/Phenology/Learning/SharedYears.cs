namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// What the plants of one place had in common in one year: a spring that came late on all of them, or a first visit that
/// came late to all. A plant's own value is freed from what its neighbors show for that year, so that few own years
/// say more.
/// </summary>
/// <remarks>
/// Mean of the others' deviations, drawn to zero as if one more plant had shown none. A neighbor weighs m / (m + 10), m the springs
/// it was seen longer than half of the plant's own: its own mean, from which it deviates, is no surer than that, and one
/// that was seen in the same few springs cannot tell an odd spring from its own mean.
/// </remarks>
public sealed class SharedYears
{
    private const double StillPlants = 1;
    private const double HalfWeightSprings = 10;
    private const double OwnShare = 0.5;
    private const int LeastSprings = 3;
    private const double MostDeviation = 0.8;
    private readonly Dictionary<(string Site, int Year), List<(SeriesKey Series, double Deviation, int Springs)>> _years = [];

    /// <summary>Of each shape, how far the dates of series seen for three springs or more lay from their own thresholds.</summary>
    internal static Dictionary<IndexShape, SharedYears> Learned(IEnumerable<(TrainedSeries Series, IReadOnlyList<PhaseDate> Dates)> series)
    {
        var learned = new Dictionary<IndexShape, SharedYears>();
        foreach (var (one, dates) in series.Where(one => one.Dates.Count >= LeastSprings))
        {
            foreach (var (shape, start, threshold) in one.Shapes)
            {
                var years = learned.TryGetValue(shape, out var known) ? known : learned[shape] = new SharedYears();
                foreach (var date in dates)
                {
                    var deviation = DevelopmentIndex.At(one.Site.Season(date.Year), shape, start, date.Day) - threshold.Value;
                    years.Add(one.Key, date.Year, Math.Clamp(deviation, -MostDeviation, MostDeviation), dates.Count);
                }
            }
        }
        return learned;
    }

    /// <param name="springs">Springs the series' mean rests on.</param>
    public void Add(SeriesKey series, int year, double deviation, int springs)
    {
        ArgumentNullException.ThrowIfNull(series);
        if (!_years.TryGetValue((series.Site, year), out var plants))
            _years[(series.Site, year)] = plants = [];
        plants.Add((series, deviation, springs));
    }

    /// <summary>What the other plants suggest was common to all in this year.</summary>
    /// <param name="springs">Springs the plant itself was seen.</param>
    public double Of(SeriesKey series, int year, int springs)
    {
        ArgumentNullException.ThrowIfNull(series);
        double sum = 0, weights = StillPlants;
        foreach (var neighbor in _years.GetValueOrDefault((series.Site, year)) ?? [])
        {
            if (neighbor.Series == series)
                continue;
            var longer = Math.Max(0, neighbor.Springs - OwnShare * springs);
            var weight = longer / (longer + HalfWeightSprings);
            sum += weight * neighbor.Deviation;
            weights += weight;
        }
        return sum / weights;
    }
}
