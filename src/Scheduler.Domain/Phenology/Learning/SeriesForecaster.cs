namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// Forecasts a date with its range: weather known up to the issue day and earlier years of the place beyond, the shapes'
/// mean date in each of them, the calendar slope, and evenly likely normal errors of the series.
/// </summary>
public sealed class SeriesForecaster(SharedClock clock, ClockRules rules)
{
    private const int MostTraces = 30;
    private static readonly double[] Errors = StandardNormal.Middles(20);

    /// <param name="issuedDay">Last axis day whose weather is known; null: the whole season's.</param>
    /// <param name="seen">What was seen of this plant's other phases this season, if anything.</param>
    public DayForecast Forecast(SeriesKey key, int year, int? issuedDay, IReadOnlyList<PhaseDate>? seen = null)
    {
        if (clock.Series(key) is not { } series)
            return DayForecast.NotExpected;
        if (series.Shapes.Count == 0)
            return Around(series.UsualDay, series.ErrorDays, issuedDay);
        var known = series.Site.Season(year);
        var earlier = Earlier(series, seen);
        if (issuedDay is null && series.Site.Knows(year, series.UsualDay))
            return Date(series, earlier, known, known, int.MaxValue) is { } date && double.IsFinite(date)
                ? Around(date, Error(series, earlier), null)
                : DayForecast.NotExpected;
        return OverTraces(series, earlier, known, year, Math.Min(issuedDay ?? int.MaxValue, known.LastKnownDay), issuedDay);
    }

    private DayForecast OverTraces(TrainedSeries series, (SeenEarlier Phase, double Day)? earlier, SeasonDrivers known, int year, int last, int? issuedDay)
    {
        var dates = new List<double>();
        int never = 0, traces = 0;
        foreach (var trace in series.Site.EarlierYears(year, MostTraces))
        {
            traces++;
            var date = Date(series, earlier, known, trace, last);
            if (!double.IsFinite(date))
            {
                never++;
                continue;
            }
            // Springs have grown warmer: the older the stand-in year, the more too late it is.
            dates.Add(date - ClockRules.LeadShare(date - last) * rules.WarmBiasDaysPerYear * (year - trace.Year.Year));
        }
        if (never * 2 > traces)
            return DayForecast.NotExpected;
        if (dates.Count == 0)
            return Around(series.UsualDay, Math.Max(series.ErrorDays, rules.PriorErrorDays), issuedDay);
        // A few decades of one place hold less of the weather's whims than are to come, the more so the farther ahead.
        var mean = dates.Average();
        var wider = 1 + rules.TraceWidening * ClockRules.LeadShare(mean - last);
        var error = Error(series, earlier);
        return Quantiles([.. dates.SelectMany(date => Errors.Select(z => mean + wider * (date - mean) + z * error))], issuedDay);
    }

    private double Date(TrainedSeries series, (SeenEarlier Phase, double Day)? earlier, SeasonDrivers known, SeasonDrivers trace, int last)
    {
        var plain = Plain(series, known, trace, last);
        if (earlier is not { } seen || !double.IsFinite(plain))
            return plain;
        var error = seen.Day - Plain(seen.Phase.Earlier, known, trace, last);
        return seen.Phase.Date(known, trace, last, seen.Day, plain, double.IsFinite(error) ? error : 0);
    }

    private double Plain(TrainedSeries series, SeasonDrivers known, SeasonDrivers trace, int last) =>
        clock.SlopeOf(series).Date(series, series.CrossingDay(known, trace, last));

    private static double Error(TrainedSeries series, (SeenEarlier Phase, double Day)? earlier) =>
        series.ErrorDays * (earlier?.Phase.ErrorShare ?? 1);

    private (SeenEarlier Phase, double Day)? Earlier(TrainedSeries series, IReadOnlyList<PhaseDate>? seen)
    {
        if (seen is null || seen.Count == 0)
            return null;
        foreach (var earlier in clock.EarlierPhases(series))
        {
            if (seen.FirstOrDefault(date => date.Series == earlier.Key) is { } date)
                return (new SeenEarlier(clock, earlier, series), date.Day);
        }
        return null;
    }

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
