namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// How much wider or narrower than reckoned the ranges of a place must be for 0.8 of the dates to fall inside: learned from
/// forecasts of every date taught, made as if its year had not been.
/// </summary>
/// <remarks>
/// Split conformal scaling (Lei et al., J. Am. Stat. Assoc. 113, 2018, from memory) with leave-one-out scores: score = distance from
/// the likely day, less the half day that a range of whole days reaches beyond its ends, over the reckoned half width on that
/// side; factor = 0.8 quantile of the scores. Its logarithm is drawn to that of all places of the plant group, and this to 0, by
/// the number of years.
/// </remarks>
public sealed class BandCalibration
{
    /// <summary>A range of whole days reaches so far beyond its ends.</summary>
    public const double WholeDays = 0.5;
    private const double Inside = 0.8;
    /// <summary>So many years the factor of the plant group, and 1 for the group itself, weigh where the reckoned range is well founded.</summary>
    public const double PriorYears = 40;
    private const double LeastHalfWidthDays = 1;
    private const double LeastFactor = 0.2;
    private readonly Dictionary<(string Site, string Group), double> _units = [];
    private readonly Dictionary<string, double> _groups = [];
    private readonly double _priorYears;

    /// <param name="scores">Of each place and plant group: year and score of each forecast.</param>
    /// <param name="priorYears">Weight of what is believed without the scores, in years.</param>
    public BandCalibration(IReadOnlyDictionary<(string Site, string Group), IReadOnlyList<(int Year, double Score)>> scores, double priorYears = PriorYears)
    {
        ArgumentNullException.ThrowIfNull(scores);
        _priorYears = priorYears;
        foreach (var group in scores.GroupBy(unit => unit.Key.Group))
            _groups[group.Key] = Factor([.. group.SelectMany(unit => unit.Value)], 1);
        foreach (var (unit, all) in scores)
            _units[unit] = Factor(all, _groups[unit.Group]);
    }

    /// <summary>How far off a date was, in half widths of the range reckoned.</summary>
    public static double Score(DayForecast reckoned, double day)
    {
        var halfWidth = day < reckoned.Likely ? reckoned.Likely - reckoned.Early : reckoned.Late - reckoned.Likely;
        return Math.Max(0, Math.Abs(day - reckoned.Likely) - WholeDays) / Math.Max(LeastHalfWidthDays, halfWidth);
    }

    /// <summary>Factor of the half widths for a plant group at a place.</summary>
    public double Of(string site, string group) =>
        _units.TryGetValue((site, group), out var unit) ? unit : _groups.GetValueOrDefault(group, 1);

    private double Factor(IReadOnlyList<(int Year, double Score)> scores, double prior)
    {
        if (scores.Count == 0)
            return prior;
        double[] sorted = [.. scores.Select(one => one.Score).Order()];
        // The next forecast counts as one of them.
        var place = Math.Clamp(Inside * (sorted.Length + 1) - 1, 0, sorted.Length - 1);
        var lower = (int)Math.Floor(place);
        var found = double.Lerp(sorted[lower], sorted[Math.Min(sorted.Length - 1, lower + 1)], place - lower);
        var years = scores.Select(one => one.Year).Distinct().Count();
        return Math.Exp((years * Math.Log(Math.Max(LeastFactor, found)) + _priorYears * Math.Log(prior)) / (years + _priorYears));
    }
}
