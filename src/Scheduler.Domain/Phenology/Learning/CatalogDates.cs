namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// What a species' catalog heat sums mean at one site: the days on which the plain clock (<see cref="GrowthClock"/>) puts
/// each code in the site's past years. A threshold of the development index is taken from them before anything was seen.
/// </summary>
internal sealed class CatalogDates
{
    private readonly IReadOnlyList<SeasonMember> _years;
    private readonly SeasonLight _light;
    private readonly Dictionary<int, (int Year, int Day)[]> _days = [];

    public CatalogDates(GrowthScale scale, SeasonEnsemble season, IReadOnlyList<SeasonMember> years)
    {
        (_years, _light) = (years, season.Light);
        foreach (var code in GrowthScale.Codes)
        {
            if (scale.FromHeatStartCd(code) is not { } needCd)
                continue;
            var days = new List<(int, int)>();
            for (var year = 0; year < years.Count; year++)
            {
                var day = GrowthClock.DayFromHeatStart(scale, season.Year, years[year], needCd, 1);
                if (double.IsFinite(day))
                    days.Add((year, (int)Math.Floor(day)));
            }
            _days[code] = [.. days];
        }
    }

    /// <summary>Codes the catalog has a heat sum for, in order of growth.</summary>
    public IEnumerable<int> Codes => _days.Keys;

    /// <summary>Mean axis day over the past years in which the code comes; null where it never does.</summary>
    public double? UsualDay(int bbch) => _days[bbch] is { Length: > 0 } days ? days.Average(day => day.Day) : null;

    /// <summary>Mean index of a shape on those days; null where the code never comes.</summary>
    public double? Index(int bbch, IndexShape shape, int startDay)
    {
        if (_days[bbch] is not { Length: > 0 } days)
            return null;
        var sum = 0d;
        foreach (var (year, day) in days)
            sum += _years[year].Development(_light).Of(shape).At(startDay, day);
        return sum / days.Length;
    }

    /// <summary>How fast a shape's index rises about a day, per day.</summary>
    public double RatePerDay(IndexShape shape, int startDay, double day)
    {
        const int reach = 5;
        var sum = 0d;
        foreach (var year in _years)
        {
            var course = year.Development(_light).Of(shape);
            sum += (course.At(startDay, day + reach) - course.At(startDay, day - reach)) / (2 * reach);
        }
        return sum / _years.Count;
    }
}
