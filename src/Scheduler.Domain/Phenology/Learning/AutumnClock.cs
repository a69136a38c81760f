namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// Leaf color and fall by the plant's own usual date and the warmth of the weeks before it: each degree above the usual
/// of that span delays by some days. Day length, which starts senescence, is the same every year and stands in the usual date.
/// </summary>
/// <remarks>
/// Linear form after Matsumoto et al., Global Change Biology 9 (2003) for ginkgo, and 2-7 days a degree for ginkgo and
/// Japanese maple over 102 Japanese stations (abstract). The slope is shared by all plants, drawn to a small prior, as most
/// of an autumn's shift is not temperature.
/// </remarks>
public sealed class AutumnClock
{
    private const int SpanStartsBefore = 50;
    private const int SpanEndsBefore = 15;
    private const double PriorSlope = 1;
    private const double PriorWeight = 60;
    private const double LargestShiftDays = 15;

    private readonly IReadOnlyDictionary<string, SiteHistory> _sites;
    private readonly Dictionary<SeriesKey, Fit> _fits = [];
    private readonly double _slope;

    private sealed record Fit(double UsualDay, double UsualC, double ErrorDays, int Years);

    public AutumnClock(IReadOnlyDictionary<string, SiteHistory> sites, IEnumerable<PhaseDate> dates)
    {
        _sites = sites;
        double xy = 0, xx = 0;
        var pairs = new List<(SeriesKey Key, double Warm, double Late)>();
        foreach (var series in dates.Where(date => sites.ContainsKey(date.Site)).GroupBy(date => date.Series))
        {
            var days = series.Select(date => date.Day).ToArray();
            // Half way between mean and median: a jump of the observed tree pulls the mean, few years shake the median.
            var usual = (days.Average() + SeriesThreshold.Median(days)) / 2;
            var warm = series.Select(date => SpanC(sites[date.Site].Season(date.Year), usual, int.MaxValue)).ToArray();
            var usualC = warm.Where(double.IsFinite).DefaultIfEmpty(double.NaN).Average();
            _fits[series.Key] = new Fit(usual, usualC, 0, days.Length);
            foreach (var (date, spanC) in series.Zip(warm).Where(pair => double.IsFinite(pair.Second)))
            {
                var late = Math.Clamp(date.Day - usual, -LargestShiftDays, LargestShiftDays);
                pairs.Add((series.Key, spanC - usualC, late));
                xy += (spanC - usualC) * late;
                xx += (spanC - usualC) * (spanC - usualC);
            }
        }
        _slope = (xy + PriorWeight * PriorSlope) / (xx + PriorWeight);
        var errors = pairs.GroupBy(pair => pair.Key).ToDictionary(group => group.Key, group => group.Sum(pair => Square(pair.Late - _slope * pair.Warm)));
        var all = pairs.Count == 0 ? Square(8) : (errors.Values.Sum() + 3 * Square(8)) / (pairs.Count + 3);
        foreach (var (key, fit) in _fits.ToList())
        {
            var own = (errors.GetValueOrDefault(key) + 5 * all) / (fit.Years + 5);
            _fits[key] = fit with { ErrorDays = Math.Sqrt(own * (1 + 1.0 / fit.Years)) };
        }
    }

    public bool Knows(SeriesKey key) => _fits.ContainsKey(key);

    /// <param name="issuedDay">Last axis day whose weather is known; null: the whole season's.</param>
    public DayForecast Forecast(SeriesKey key, int year, int? issuedDay)
    {
        if (!_fits.TryGetValue(key, out var fit))
            return DayForecast.NotExpected;
        var spanC = SpanC(_sites[key.Site].Season(year), fit.UsualDay, issuedDay ?? int.MaxValue);
        var likely = fit.UsualDay + (double.IsFinite(spanC) && double.IsFinite(fit.UsualC) ? _slope * (spanC - fit.UsualC) : 0);
        if (issuedDay is { } day)
            likely = Math.Max(likely, day + 1);
        const double eighty = 1.2816;
        return new DayForecast(Math.Max(likely - eighty * fit.ErrorDays, (issuedDay ?? int.MinValue) + 1d), likely, likely + eighty * fit.ErrorDays);
    }

    // Mean of the known days of the span; not a number when less than half of it is known.
    private static double SpanC(SeasonDrivers season, double usualDay, int lastDay)
    {
        int from = (int)usualDay - SpanStartsBefore, to = (int)usualDay - SpanEndsBefore, known = 0;
        var sum = 0d;
        for (var day = Math.Max(0, from); day < to && day < season.Days && day <= lastDay; day++)
        {
            if (double.IsNaN(season.MinC[day]))
                continue;
            sum += (season.MinC[day] + season.MaxC[day]) / 2;
            known++;
        }
        return known * 2 >= to - from ? sum / known : double.NaN;
    }

    private static double Square(double value) => value * value;
}
