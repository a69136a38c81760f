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
    public DayForecast Forecast(SeriesKey key, int year, int? issuedDay)
    {
        if (clock.Series(key) is not { } series)
            return DayForecast.NotExpected;
        if (series.Shapes.Count == 0)
            return Around(series.UsualDay, series.ErrorDays, issuedDay);
        var known = series.Site.Season(year);
        if (issuedDay is null && series.Site.Knows(year, series.UsualDay))
        {
            var day = series.CrossingDay(known, known, int.MaxValue);
            return double.IsFinite(day) ? Around(clock.SlopeOf(series).Date(series, day), series.ErrorDays, null) : DayForecast.NotExpected;
        }
        var last = Math.Min(issuedDay ?? int.MaxValue, known.LastKnownDay);
        var draws = new List<double>();
        var never = 0;
        foreach (var trace in series.Site.EarlierYears(year, MostTraces))
        {
            var day = series.CrossingDay(known, trace, last);
            if (!double.IsFinite(day))
            {
                never++;
                continue;
            }
            var lead = Math.Clamp((day - last) * rules.WarmBiasPerDay, 0, rules.MostWarmBiasDays);
            var date = clock.SlopeOf(series).Date(series, day) - lead;
            foreach (var error in Errors)
                draws.Add(date + error * series.ErrorDays);
        }
        if (never > draws.Count / Errors.Length)
            return DayForecast.NotExpected;
        return draws.Count == 0 ? Around(series.UsualDay, Math.Max(series.ErrorDays, rules.PriorErrorDays), issuedDay) : Quantiles(draws, issuedDay);
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
