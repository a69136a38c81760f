using System.Collections.Concurrent;

namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// What a site's past weather is to the growth clock: its springs, and what catalog figures mean in them. It holds as long
/// as the weather does, so that a new observation only fits thresholds anew. May be used by several threads.
/// </summary>
public sealed class SiteSprings
{
    private const int FirstOfFebruary = 153;
    private const string Here = "here";
    /// <summary>Warmth that counts between two growth points: hourly, above 4 C, whatever the day length.</summary>
    internal static readonly IndexShape Warmth = new(4, 0, null, 0);
    private readonly ConcurrentDictionary<Species, CatalogDates> _catalog = new();
    private readonly IReadOnlyList<SeasonMember> _years;

    public SiteSprings(SeasonEnsemble season)
    {
        ArgumentNullException.ThrowIfNull(season);
        Season = season;
        _years = season.Normals.Count > 0 ? season.Normals : season.Members;
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
        _catalog.TryGetValue(scale.Species, out var known) ? known : _catalog[scale.Species] = new CatalogDates(scale, Season, _years);

    // Averaged as logarithms, like the thresholds themselves.
    internal double? WarmthBetween(CodeClock earlier, CodeClock later)
    {
        const double leastWarmth = 5;
        double sum = 0;
        var count = 0;
        foreach (var year in _years)
        {
            var course = year.Development(Season.Light);
            double from = earlier.DayIn(course), to = later.DayIn(course);
            if (!double.IsFinite(from) || !double.IsFinite(to))
                continue;
            var warmth = course.Of(Warmth);
            sum += Math.Log(leastWarmth + Math.Max(0, warmth.HeatAt(to) - warmth.HeatAt(from)));
            count++;
        }
        return count == 0 ? null : Math.Max(0, Math.Exp(sum / count) - leastWarmth);
    }
}
