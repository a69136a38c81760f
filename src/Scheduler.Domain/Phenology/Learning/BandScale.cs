namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// Sets the width of ranges by what forecasts of past years would have needed, with all weather known and some weeks ahead;
/// between those leads the factor is interpolated. Leads are worked out when first asked for.
/// </summary>
/// <param name="clock">The clock whose dates taught.</param>
/// <param name="hindcast">The range as reckoned for a series, one of its dates (by index) left out, issued on an axis day (null: the weather is known).</param>
internal sealed class BandScale(SharedClock clock, Func<TrainedSeries, int, int?, DayForecast> hindcast)
{
    // From the day of issue to the usual date; 0: the weather is known.
    private static readonly int[] LeadDays = [0, 7, 14, 30];
    // Forecasts of new years are worse than of years taken out of the middle, less so where weather to come makes most of the
    // error; read off the development records.
    internal const double NewYears = 1.08;
    internal const double NewYearsAhead = 1.04;
    private readonly BandCalibration?[] _leads = new BandCalibration?[LeadDays.Length];

    /// <summary>The range told.</summary>
    /// <param name="reckoned">The range that courses of the weather and the series' error give.</param>
    /// <param name="lastDay">Last axis day whose weather is known.</param>
    /// <param name="issuedDay">The phase has not come by this day; null: it may have.</param>
    public DayForecast Scaled(TrainedSeries series, DayForecast reckoned, int lastDay, int? issuedDay)
    {
        return reckoned.IsExpected ? Widened(reckoned, Factor(series, reckoned.Likely - lastDay), issuedDay) : reckoned;
    }

    /// <summary>Both half widths times a factor, less the half day that whole days reach beyond; nothing on a day that has passed.</summary>
    internal static DayForecast Widened(DayForecast reckoned, double factor, int? issuedDay)
    {
        var early = reckoned.Likely - HalfWidth(reckoned.Likely - reckoned.Early);
        if (issuedDay is { } issued)
            early = Math.Max(early, Math.Min(issued + 1d, reckoned.Likely));
        return new DayForecast(early, reckoned.Likely, reckoned.Likely + HalfWidth(reckoned.Late - reckoned.Likely));

        double HalfWidth(double days) => Math.Max(0, factor * days - BandCalibration.WholeDays);
    }

    private double Factor(TrainedSeries series, double daysAhead)
    {
        var lead = 0;
        while (lead + 1 < LeadDays.Length && LeadDays[lead + 1] <= daysAhead)
            lead++;
        var factor = Of(lead, series);
        return lead + 1 == LeadDays.Length || daysAhead <= 0 ? factor
            : double.Lerp(factor, Of(lead + 1, series), (daysAhead - LeadDays[lead]) / (LeadDays[lead + 1] - LeadDays[lead]));
    }

    private double Of(int lead, TrainedSeries series) => (lead == 0 ? NewYears : NewYearsAhead) * (_leads[lead] ??= Learned(LeadDays[lead])).Of(series.Key.Site, series.Group.Id);

    private BandCalibration Learned(int leadDays) => new(clock.Taught
        .GroupBy(series => (series.Key.Site, series.Group.Id))
        .ToDictionary(unit => unit.Key, unit => (IReadOnlyList<(int, double)>)[.. unit.SelectMany(series => Scores(series, leadDays))]));

    private IEnumerable<(int Year, double Score)> Scores(TrainedSeries series, int leadDays)
    {
        var dates = clock.DatesOf(series.Key);
        if (dates.Count < 2 || series.Shapes.Count == 0)
            yield break;
        int? issued = leadDays == 0 ? null : (int)Math.Floor(series.UsualDay) - leadDays;
        for (var date = 0; date < dates.Count; date++)
        {
            // As the owner asks: not once the phase has come.
            if (!(dates[date].Day <= issued) && hindcast(series, date, issued) is { IsExpected: true } forecast)
                yield return (dates[date].Year, BandCalibration.Score(forecast, dates[date].Day));
        }
    }
}
