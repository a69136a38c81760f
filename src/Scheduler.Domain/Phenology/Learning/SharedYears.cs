namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// What the plants of one place had in common in one year: a spring that came late on all of them, or a first visit that
/// came late to all. A plant's own value is freed from what its neighbors show for that year, so that few own years
/// say more.
/// </summary>
/// <remarks>
/// Mean of the others' deviations, drawn to zero as if one more plant had shown none. A neighbor with n springs weighs
/// n / (n + 10): its own mean, from which it deviates, is no surer than that.
/// </remarks>
public sealed class SharedYears
{
    private const double StillPlants = 1;
    private const double HalfWeightSprings = 10;
    private readonly Dictionary<(string Site, int Year), (double Sum, double Weight)> _totals = [];
    private readonly Dictionary<(SeriesKey Series, int Year), (double Sum, double Weight)> _own = [];

    /// <param name="springs">Springs the series' mean rests on.</param>
    public void Add(SeriesKey series, int year, double deviation, int springs)
    {
        var weight = springs / (springs + HalfWeightSprings);
        _own[(series, year)] = (weight * deviation, weight);
        var total = _totals.GetValueOrDefault((series.Site, year));
        _totals[(series.Site, year)] = (total.Sum + weight * deviation, total.Weight + weight);
    }

    /// <summary>What the other plants suggest was common to all in this year.</summary>
    public double Of(SeriesKey series, int year)
    {
        var total = _totals.GetValueOrDefault((series.Site, year));
        var own = _own.GetValueOrDefault((series, year));
        return (total.Sum - own.Sum) / (total.Weight - own.Weight + StillPlants);
    }
}
