namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// What the plants of one place had in common in one year: a spring that came late on all of them, or a first visit that
/// came late to all. A plant's own value is freed from what its neighbors show for that year, so that few own years
/// say more.
/// </summary>
/// <remarks>Mean of the others' deviations, drawn to zero as if one more plant had shown none.</remarks>
public sealed class SharedYears
{
    private const double StillPlants = 1;
    private readonly Dictionary<(string Site, int Year), (double Sum, int Count)> _totals = [];
    private readonly Dictionary<(SeriesKey Series, int Year), double> _own = [];

    public void Add(SeriesKey series, int year, double deviation)
    {
        _own[(series, year)] = deviation;
        var (sum, count) = _totals.GetValueOrDefault((series.Site, year));
        _totals[(series.Site, year)] = (sum + deviation, count + 1);
    }

    /// <summary>What the other plants suggest was common to all in this year.</summary>
    public double Of(SeriesKey series, int year)
    {
        var (sum, count) = _totals.GetValueOrDefault((series.Site, year));
        if (_own.TryGetValue((series, year), out var own))
            (sum, count) = (sum - own, count - 1);
        return sum / (count + StillPlants);
    }
}
