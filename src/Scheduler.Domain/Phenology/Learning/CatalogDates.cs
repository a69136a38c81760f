using System.Collections.Concurrent;

namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// What a species' catalog heat sums mean at one site: the days on which the plain clock (<see cref="GrowthClock"/>) puts
/// each code in the site's past years. A threshold of the development index is taken from them before anything was seen.
/// </summary>
internal sealed class CatalogDates
{
    // Enough to tell how fast the index rises.
    private const int YearsForRate = 6;
    private const int Reach = 5;
    private readonly CourseSet _courses;
    private readonly ConcurrentDictionary<(int, IndexShape, int), double> _indices = new();
    private readonly ConcurrentDictionary<(IndexShape, int, int), double> _rates = new();
    private readonly Dictionary<int, (int Year, int Day)[]> _days = [];

    public CatalogDates(GrowthScale scale, GrowthYear axis, IReadOnlyList<SeasonMember> years, CourseSet courses)
    {
        _courses = courses;
        foreach (var code in GrowthScale.Codes)
        {
            if (scale.FromHeatStartCd(code) is not { } needCd)
                continue;
            var days = new List<(int, int)>();
            for (var year = 0; year < years.Count; year++)
            {
                var day = GrowthClock.DayFromHeatStart(scale, axis, years[year], needCd, 1);
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
        if (_indices.TryGetValue((bbch, shape, startDay), out var known))
            return known;
        var courses = _courses.Of(shape);
        var sum = 0d;
        foreach (var (year, day) in days)
            sum += courses[year].At(startDay, day);
        return _indices[(bbch, shape, startDay)] = sum / days.Length;
    }

    /// <summary>How fast a shape's index rises about a day, per day.</summary>
    public double RatePerDay(IndexShape shape, int startDay, int day)
    {
        if (_rates.TryGetValue((shape, startDay, day), out var known))
            return known;
        var courses = _courses.Of(shape);
        var step = Math.Max(1, courses.Length / YearsForRate);
        double sum = 0;
        var count = 0;
        for (var year = 0; year < courses.Length; year += step, count++)
            sum += (courses[year].At(startDay, day + Reach) - courses[year].At(startDay, day - Reach)) / (2 * Reach);
        return _rates[(shape, startDay, day)] = sum / count;
    }
}
