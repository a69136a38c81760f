namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// Forecasts a date with its range: weather known up to the issue day and earlier years of the place beyond, the shapes'
/// mean date in each of them, the calendar slope, and evenly likely normal errors of the series; the range is widened or
/// narrowed to what forecasts of past years would have needed.
/// </summary>
public sealed class SeriesForecaster
{
    private static readonly double[] Errors = StandardNormal.Middles(20);
    private readonly SharedClock _clock;
    private readonly ClockRules _rules;
    private readonly BandScale _bands;
    private readonly GivenBands _given;
    private readonly Dictionary<(SeriesKey, SeriesKey), SeenEarlier> _pairs = [];

    public SeriesForecaster(SharedClock clock, ClockRules rules) =>
        (_clock, _rules, _bands, _given) = (clock, rules, new BandScale(clock, Hindcast), new GivenBands(clock, Hindcast));

    // What was seen of an earlier phase, and which of its dates must not teach (-1: all do).
    private readonly record struct Given(SeenEarlier Phase, double Day, int WithoutDate, int? WithoutYear);

    /// <param name="issuedDay">Last axis day whose weather is known; null: the whole season's.</param>
    /// <param name="seen">What was seen of this plant's other phases this season, if anything.</param>
    public DayForecast Forecast(SeriesKey key, int year, int? issuedDay, IReadOnlyList<PhaseDate>? seen = null)
    {
        if (_clock.Series(key) is not { } series)
            return DayForecast.NotExpected;
        if (series.Shapes.Count == 0)
            return Around(series.UsualDay, series.ErrorDays, issuedDay);
        var known = series.Site.Season(year);
        var earlier = Earlier(series, seen);
        var last = issuedDay is null && series.Site.Knows(year, series.UsualDay) ? int.MaxValue : Math.Min(issuedDay ?? int.MaxValue, known.LastKnownDay);
        var years = last == int.MaxValue ? [known] : series.Site.EarlierYears(year, StandInYears.Most).ToList();
        var reckoned = Reckoned(series, earlier, known, years, last, issuedDay, -1);
        return earlier is { } given
            ? _given.Scaled(given.Phase.Earlier, series, reckoned, last, issuedDay)
            : _bands.Scaled(series, reckoned, last, issuedDay);
    }

    private DayForecast Hindcast(TrainedSeries series, int dateIndex, int? issuedDay) => Hindcast(series, dateIndex, issuedDay, null);

    private DayForecast Hindcast(SeenPair pair, int? issuedDay)
    {
        var seen = _clock.DatesOf(pair.Earlier.Key)[pair.EarlierIndex];
        return Hindcast(pair.Later, pair.LaterIndex, issuedDay, new Given(PairOf(pair.Earlier, pair.Later), seen.Day, pair.EarlierIndex, seen.Year));
    }

    // A year taught, forecast with the thresholds of the others; years after it may stand in too, or the first would have none.
    private DayForecast Hindcast(TrainedSeries series, int dateIndex, int? issuedDay, Given? earlier)
    {
        var known = series.Site.Season(_clock.DatesOf(series.Key)[dateIndex].Year);
        var years = issuedDay is null
            ? [known]
            : series.Site.EarlierYears(series.Site.LastYear + 1, int.MaxValue).Where(year => year.Year != known.Year).Take(StandInYears.Most).ToList();
        return Reckoned(series, earlier, known, years, issuedDay ?? int.MaxValue, issuedDay, dateIndex);
    }

    private DayForecast Reckoned(
        TrainedSeries series, Given? earlier, SeasonDrivers known, List<SeasonDrivers> years, int last, int? issuedDay, int withoutDate)
    {
        var standIns = new StandInYears(known, years, last, _rules);
        var dates = years
            .Select(year => standIns.Shifted(Date(series, earlier, known, year, last, withoutDate), year))
            .Where(double.IsFinite)
            .ToList();
        if (dates.Count * 2 < years.Count)
            return DayForecast.NotExpected;
        if (dates.Count == 0)
            return Around(series.UsualDay, Math.Max(series.ErrorIn(known.Year.Year), _rules.PriorErrorDays), issuedDay);
        // A few decades of one place hold less of the weather's whims than are to come, the more so the farther ahead.
        var mean = dates.Average();
        var wider = 1 + _rules.TraceWidening * ClockRules.LeadShare(mean - last);
        var error = Error(series, earlier, known.Year.Year);
        return Quantiles([.. dates.SelectMany(date => Errors.Select(z => mean + wider * (date - mean) + z * error))], issuedDay);
    }

    private double Date(TrainedSeries series, Given? earlier, SeasonDrivers known, SeasonDrivers trace, int last, int withoutDate)
    {
        var plain = Plain(series, known, trace, last, withoutDate);
        if (earlier is not { } seen || !double.IsFinite(plain))
            return plain;
        var error = seen.Day - Plain(seen.Phase.Earlier, known, trace, last, seen.WithoutDate);
        return seen.Phase.Date(known, trace, last, seen.Day, plain, double.IsFinite(error) ? error : 0, seen.WithoutYear);
    }

    private double Plain(TrainedSeries series, SeasonDrivers known, SeasonDrivers trace, int last, int withoutDate) =>
        _clock.SlopeOf(series).Date(series, series.CrossingDay(known, trace, last, withoutDate));

    private static double Error(TrainedSeries series, Given? earlier, int year) =>
        series.ErrorIn(year) * (earlier?.Phase.ErrorShare ?? 1);

    private Given? Earlier(TrainedSeries series, IReadOnlyList<PhaseDate>? seen)
    {
        if (seen is null || seen.Count == 0)
            return null;
        foreach (var earlier in _clock.EarlierPhases(series))
        {
            if (seen.FirstOrDefault(date => date.Series == earlier.Key) is { } date)
                return new Given(PairOf(earlier, series), date.Day, -1, null);
        }
        return null;
    }

    private SeenEarlier PairOf(TrainedSeries earlier, TrainedSeries later) =>
        _pairs.TryGetValue((earlier.Key, later.Key), out var known) ? known : _pairs[(earlier.Key, later.Key)] = new SeenEarlier(_clock, earlier, later);

    private static DayForecast Around(double day, double spread, int? issuedDay) =>
        Quantiles([.. Errors.Select(error => day + error * spread)], issuedDay);

    // What was not seen up to the issue day has not come yet.
    private static DayForecast Quantiles(List<double> draws, int? issuedDay)
    {
        var open = issuedDay is { } day ? draws.Where(draw => draw > day).ToList() : draws;
        if (open.Count == 0)
            open = [issuedDay!.Value + 1d, issuedDay.Value + 2d, issuedDay.Value + 4d];
        open.Sort();
        return new DayForecast(At(open, 0.1), At(open, 0.5), At(open, 0.9));
    }

    private static double At(List<double> sorted, double share)
    {
        var place = share * (sorted.Count - 1);
        var lower = (int)Math.Floor(place);
        return lower + 1 < sorted.Count ? double.Lerp(sorted[lower], sorted[lower + 1], place - lower) : sorted[lower];
    }
}
