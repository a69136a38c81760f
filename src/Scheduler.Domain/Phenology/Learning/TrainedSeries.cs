namespace Scheduler.Domain.Phenology.Learning;

/// <summary>One series after training: its usual day, a threshold per shape that fits it, and its own error.</summary>
public sealed record TrainedSeries(SeriesKey Key, SiteHistory Site, ShapeGroup Group, double UsualDay, int Springs)
{
    public required IReadOnlyList<(IndexShape Shape, int StartDay, SeriesThreshold Threshold)> Shapes { get; init; }

    /// <summary>Spread of forecasts around what comes, with the weather known and the thresholds certain [d].</summary>
    public double ErrorDays { get; init; }

    /// <summary>The same with what is uncertain about the thresholds of one year [d].</summary>
    public double ErrorIn(int year)
    {
        var threshold = Shapes.Count == 0 ? 0 : Math.Sqrt(Shapes.Average(shape => shape.Threshold.VarianceAt(year))) / RatePerDay();
        return Math.Sqrt(ErrorDays * ErrorDays + threshold * threshold);
    }

    /// <summary>Mean date of all shapes in the known year; infinity when most shapes do not get there.</summary>
    /// <param name="trace">The season that continues the known one after its last day.</param>
    /// <param name="withoutIndex">Which of the series' dates must not teach; -1: all do.</param>
    public double CrossingDay(SeasonDrivers known, SeasonDrivers trace, int lastDay, int withoutIndex = -1)
    {
        double sum = 0;
        var reached = 0;
        foreach (var (shape, start, threshold) in Shapes)
        {
            var need = threshold.At(known.Year.Year, withoutIndex);
            var day = DevelopmentIndex.Crossing(known, trace, lastDay, shape, start, need);
            if (!double.IsFinite(day))
                continue;
            sum += day;
            reached++;
        }
        return reached * 2 > Shapes.Count ? sum / reached : double.PositiveInfinity;
    }

    /// <summary>How fast the index rises near the usual day, per day: turns threshold uncertainty into days.</summary>
    private double RatePerDay()
    {
        const int reach = 5;
        var season = Site.Season(Site.LastYear - 1);
        var rates = Shapes.Select(shape =>
            (DevelopmentIndex.At(season, shape.Shape, shape.StartDay, UsualDay + reach)
                - DevelopmentIndex.At(season, shape.Shape, shape.StartDay, UsualDay - reach)) / (2 * reach));
        return Math.Clamp(rates.DefaultIfEmpty(0.04).Average(), 0.015, 0.08);
    }
}
