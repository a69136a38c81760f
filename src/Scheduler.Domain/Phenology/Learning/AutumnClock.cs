namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// Leaf color and fall by the plant's own usual date and the cooling of the weeks before it: each degree of cooling beyond
/// the usual brings the date forward by some days. The usual date follows the nearest years; where the plant was never seen,
/// its relatives and the plants of the place suggest one, with a wide range.
/// </summary>
/// <remarks>
/// D(y) = U(y) - b (C(y) - Cu(y)): U the robust mean of the days of near years, C the <see cref="AutumnCooling"/> and Cu its mean over
/// the same years with the same weights, b shared by all plants and drawn to a prior. The linear form follows Matsumoto et al.,
/// Global Change Biology 9 (2003) for ginkgo; over 102 Japanese stations ginkgo and Japanese maple color 2-7 days later for each
/// degree of the autumn mean (abstract).
/// </remarks>
public sealed class AutumnClock
{
    /// <summary>Days forward for each degree of cooling, before any date is known, and how many squared degrees that counts.</summary>
    public const double PriorDaysPerC = 2;
    private const double PriorWeight = 15;
    private const double LargestShiftDays = 15;
    private const double PriorErrorDays = 8;
    private const double PriorErrors = 3;
    private const double GroupErrors = 5;
    private const double P90 = 1.2816;
    private const int MostPastYears = 20;

    private readonly IReadOnlyDictionary<string, SiteHistory> _sites;
    private readonly Dictionary<SeriesKey, Fit> _fits;
    private readonly double _daysPerC;
    private readonly double _groupVariance;
    private readonly AutumnRelatives _relatives;
    private readonly Dictionary<SeriesKey, Fit> _guessed = [];

    // Usual day for the span only: it must stay the same when a year is taken out.
    private sealed record Fit(SiteHistory Site, IReadOnlyList<(int Year, double Day)> Days, double SpanDay, double ErrorDays);

    /// <param name="sites">Places with weather.</param>
    /// <param name="dates">Leaf color and fall seen.</param>
    /// <param name="rules">How relatives weigh.</param>
    /// <param name="kinship">Which plants are related.</param>
    public AutumnClock(IReadOnlyDictionary<string, SiteHistory> sites, IEnumerable<PhaseDate> dates, ClockRules rules, Kinship kinship)
    {
        ArgumentNullException.ThrowIfNull(sites);
        ArgumentNullException.ThrowIfNull(dates);
        _sites = sites;
        _fits = dates.Where(date => sites.ContainsKey(date.Site)).GroupBy(date => date.Series).ToDictionary(series => series.Key, series =>
        {
            var days = series.Select(date => (date.Year, date.Day)).ToList();
            return new Fit(sites[series.Key.Site], days, (days.Average(day => day.Day) + SeriesThreshold.Median([.. days.Select(day => day.Day)])) / 2, 0);
        });
        var gaps = _fits.ToDictionary(fit => fit.Key, fit => LeftOut(fit.Value));
        var all = gaps.Values.SelectMany(gap => gap).ToList();
        _daysPerC = (all.Sum(gap => gap.Cooler * gap.Early) + PriorWeight * PriorDaysPerC) / (all.Sum(gap => gap.Cooler * gap.Cooler) + PriorWeight);
        _groupVariance = (all.Sum(Squared) + PriorErrors * PriorErrorDays * PriorErrorDays) / (all.Count + PriorErrors);
        foreach (var (key, gap) in gaps)
            _fits[key] = _fits[key] with { ErrorDays = Math.Sqrt((gap.Sum(Squared) + GroupErrors * _groupVariance) / (gap.Count + GroupErrors)) };
        _relatives = new AutumnRelatives([.. _fits.Select(fit => new KnownValue(fit.Key, fit.Value.SpanDay))], new Relatives(kinship, rules));
    }

    /// <summary>Whether dates of the series taught.</summary>
    public bool Knows(SeriesKey key) => _fits.ContainsKey(key);

    /// <param name="key">The series.</param>
    /// <param name="year">Growth year whose autumn is asked for.</param>
    /// <param name="issuedDay">Last axis day whose weather is known; null: the whole season's.</param>
    public DayForecast Forecast(SeriesKey key, int year, int? issuedDay)
    {
        if ((_fits.GetValueOrDefault(key) ?? Guessed(key)) is not { } fit)
            return DayForecast.NotExpected;
        var lastDay = Math.Min(issuedDay ?? int.MaxValue, fit.Site.Season(year).LastKnownDay);
        var cooler = Cooler(fit, fit.Days, year, lastDay);
        var likely = NearbyYears.RobustDay(fit.Days, year) - _daysPerC * (double.IsFinite(cooler) ? cooler : 0);
        var notBefore = (issuedDay ?? int.MinValue) + 1d;
        likely = Math.Max(likely, notBefore);
        return new DayForecast(Math.Max(likely - P90 * fit.ErrorDays, notBefore), likely, likely + P90 * fit.ErrorDays);
    }

    // Never seen here: as if it had come on the day its relatives suggest in each past year of the place.
    private Fit? Guessed(SeriesKey key)
    {
        if (_guessed.TryGetValue(key, out var known))
            return known;
        if (!_sites.TryGetValue(key.Site, out var site) || _relatives.UsualDay(key) is not { } day)
            return null;
        var past = site.EarlierYears(site.LastYear + 1, MostPastYears).Select(season => (season.Year.Year, day)).ToList();
        var error = Math.Sqrt(_groupVariance + _relatives.SpreadDays * _relatives.SpreadDays);
        return _guessed[key] = new Fit(site, past.Count > 0 ? past : [(site.LastYear, day)], day, error);
    }

    // Each year against the others: how much cooler it was and how much earlier the date.
    private static List<(double Cooler, double Early)> LeftOut(Fit fit)
    {
        var gaps = new List<(double, double)>();
        foreach (var (year, day) in fit.Days)
        {
            var others = fit.Days.Where(other => other.Year != year).ToList();
            if (others.Count == 0)
                break;
            var cooler = Cooler(fit, others, year, int.MaxValue);
            if (double.IsFinite(cooler))
                gaps.Add((cooler, Math.Clamp(NearbyYears.RobustDay(others, year) - day, -LargestShiftDays, LargestShiftDays)));
        }
        return gaps;
    }

    private static double Cooler(Fit fit, IReadOnlyList<(int Year, double Day)> years, int year, int lastDay)
    {
        var usual = years.Select(day => (day.Year, Value: CoolingC(fit, day.Year, lastDay))).Where(cooling => double.IsFinite(cooling.Value)).ToList();
        return usual.Count == 0 ? double.NaN : CoolingC(fit, year, lastDay) - NearbyYears.Mean(usual, year);
    }

    private static double CoolingC(Fit fit, int year, int lastDay)
    {
        var season = fit.Site.Season(year);
        return AutumnCooling.MeanC(season.MinC, season.MaxC, season.DayLengthHours, fit.SpanDay, lastDay);
    }

    private double Squared((double Cooler, double Early) gap)
    {
        var error = gap.Early - _daysPerC * gap.Cooler;
        return error * error;
    }
}
