using System.Collections.Concurrent;

namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// What a site's past weather is to the growth clock: its springs, and what catalog figures mean in them. It holds as long
/// as the weather does, so that a new observation only fits thresholds anew. May be used by several threads.
/// </summary>
public sealed class SiteSprings
{
    private const int FirstOfFebruary = 153;
    private const int DaysAfterUsual = 20;
    private const string Here = "here";
    /// <summary>Warmth that counts between two growth points: hourly, above 4 C, whatever the day length.</summary>
    internal static readonly IndexShape Warmth = new(4, 0, null, 0);
    private readonly ConcurrentDictionary<Species, CatalogDates> _catalog = new();
    private readonly IReadOnlyList<SeasonMember> _years;
    private readonly CourseSet _courses;

    public SiteSprings(SeasonEnsemble season)
    {
        ArgumentNullException.ThrowIfNull(season);
        Season = season;
        (_years, _courses) = season.Normals.Count > 0 ? (season.Normals, season.NormalCourses) : (season.Members, season.MemberCourses);
        History = season.Site.Days.Count == 0 ? null : new SiteHistory(Here, season.Latitude, season.Site.Days);
        ChillByFebruary = _years.Count == 0 ? 0 : _years.Average(year => year.ChillPortions[Math.Min(FirstOfFebruary, year.Days - 1)]);
    }

    /// <summary>The growth year that is under way.</summary>
    public SeasonEnsemble Season { get; }

    /// <summary>Past seasons for learning; to be used under its own lock. Null: no weather at all.</summary>
    internal SiteHistory? History { get; }

    /// <summary>Mean chill by 1 February (1 August) [portions].</summary>
    public double ChillByFebruary { get; }

    internal bool HasPastYears => _years.Count > 0;

    internal CatalogDates CatalogOf(GrowthScale scale) =>
        _catalog.TryGetValue(scale.Species, out var known) ? known : _catalog[scale.Species] = new CatalogDates(scale, Season.Year, _years, _courses);

    /// <summary>The day a growth point had or has in one growth year; null where that year's weather is not known.</summary>
    internal double? DayIn(CodeClock code, GrowthYear year)
    {
        if (year == Season.Year)
            return Median([.. code.DaysIn(Season.MemberCourses).Where(double.IsFinite)]);
        if (History is null || year.Year > Season.Year.Year)
            return null;
        lock (History)
        {
            if (!History.Knows(year.Year, code.UsualDay + DaysAfterUsual))
                return null;
            var season = History.Season(year.Year);
            var days = code.Shapes.Select(one => DevelopmentIndex.Crossing(season, one.Shape, one.StartDay, one.Threshold)).Where(double.IsFinite).ToList();
            return days.Count == 0 ? null : code.UsualDay + code.Slope * (days.Average() - code.UsualDay) + 0.5;
        }
    }

    private static double? Median(List<double> days) => days.Count == 0 ? null : SeriesThreshold.Median(days);

    // Averaged as logarithms, like the thresholds themselves.
    internal double? WarmthBetween(CodeClock earlier, CodeClock later)
    {
        const double leastWarmth = 5;
        double[] from = earlier.DaysIn(_courses), to = later.DaysIn(_courses);
        var courses = _courses.Of(Warmth);
        double sum = 0;
        var count = 0;
        for (var year = 0; year < courses.Length; year++)
        {
            if (!double.IsFinite(from[year]) || !double.IsFinite(to[year]))
                continue;
            sum += Math.Log(leastWarmth + Math.Max(0, courses[year].HeatAt(to[year]) - courses[year].HeatAt(from[year])));
            count++;
        }
        return count == 0 ? null : Math.Max(0, Math.Exp(sum / count) - leastWarmth);
    }
}
