namespace Scheduler.Domain.Phenology.Learning;

/// <summary>Growth points of one species that follow each other, leaf or flower codes, as fitted.</summary>
/// <param name="Learned">The series that own springs were seen of, to learn the slope and error of the place from.</param>
/// <param name="Deviation">How far the thresholds lie above the catalog's; null: nothing was seen.</param>
internal sealed record FittedTrack(
    ShapeGroup Group, IReadOnlyList<CodeClock> Codes, IReadOnlyList<(TrainedSeries Series, IReadOnlyList<PhaseDate> Dates)> Learned, double? Deviation);

/// <summary>
/// Fits the thresholds of one track: each starts from the index that the catalog's figures give at this site, is shifted by
/// what relatives and the other codes of the track showed here, and drawn to its own dates.
/// </summary>
/// <remarks>
/// Prior spread 0.3, and less for a code whose neighbor in the track was learned: 0.2 times the root of their distance over
/// three weeks, together with the neighbor's own uncertainty. A single date farther than four spreads from what is believed
/// hardly counts until others agree with it.
/// </remarks>
internal sealed class TrackFitter(SiteSprings site, GrowthScale scale, ClockRules rules)
{
    private const double DoubtfulSpreads = 4;
    private const double DoubtfulWeight = 0.5;
    private const double NeighborDays = 21;
    private const double FarthestUsualDays = 25;
    private const int OwnSpringsForUsual = 3;
    private const double LeastRate = 0.015;
    private const double HighestRate = 0.08;
    private readonly CatalogDates _catalog = site.CatalogOf(scale);
    private readonly int _year = site.Season.Year.Year;

    /// <param name="flower">Flower codes or leaf codes.</param>
    /// <param name="own">Dates of past springs by code, each year once.</param>
    /// <param name="relatives">What relatives suggest for the deviation from the catalog.</param>
    /// <param name="years">What each spring did to all plants of the garden, by shape; null: not known yet.</param>
    public FittedTrack Fit(
        bool flower, IReadOnlyDictionary<int, List<PhaseDate>> own, Prior relatives, IReadOnlyDictionary<IndexShape, SharedYears>? years = null)
    {
        var group = rules.GroupOf(new SeriesKey("", scale.Species.BotanicalName, flower ? "flower" : "leaf"));
        var codes = _catalog.Codes.Where(code => GrowthScale.IsFlowerCode(code) == flower).ToList();
        var start = Combined(relatives);
        var learned = new List<Learned>();
        foreach (var code in codes.Where(own.ContainsKey).OrderByDescending(code => own[code].Count))
            learned.Add(Learn(code, own[code], group, learned, start, own[code].Count <= rules.FewSprings ? years : null));
        var shiftDays = ShiftDays(learned);
        var clocks = new List<CodeClock>();
        foreach (var code in codes)
        {
            if (learned.Find(one => one.Clock.Bbch == code) is { } fitted)
                clocks.Add(fitted.Clock);
            else if (_catalog.UsualDay(code) is { } usual)
                clocks.Add(FromCatalog(code, usual + shiftDays, group, learned, start));
        }
        var deviations = learned.Where(one => one.Deviation is not null).ToList();
        return new FittedTrack(group, clocks, [.. learned.Select(one => (one.Series, one.Dates))],
            deviations.Count == 0 ? null : deviations.Sum(one => one.Deviation!.Value * one.Dates.Count) / deviations.Sum(one => one.Dates.Count));
    }

    private sealed record Learned(CodeClock Clock, TrainedSeries Series, IReadOnlyList<PhaseDate> Dates, double? Deviation);

    // Catalog and relatives are two opinions; relatives farther than the family say nothing beyond the catalog.
    private Prior Combined(Prior relatives)
    {
        var spread = scale.Rules.PriorSpread.Value;
        if (relatives.Mean is not { } mean || relatives.Spread > rules.KinSpread)
            return new Prior(0, spread);
        double own = 1 / (spread * spread), other = 1 / (relatives.Spread * relatives.Spread);
        return new Prior(mean * other / (own + other), Math.Sqrt(1 / (own + other)));
    }

    // A neighbor's deviation carries over as the same number of days, not as the same share of heat: late in spring an index rises more slowly.
    private Prior Deviation(int code, double usualDay, double ratePerDay, List<Learned> learned, Prior start)
    {
        var near = learned.Where(one => one.Deviation is not null && one.Clock.Bbch != code).MinBy(one => Math.Abs(one.Clock.UsualDay - usualDay));
        if (near is null)
            return start;
        var away = scale.Rules.TrackSpread.Value * Math.Min(1, Math.Sqrt(Math.Abs(near.Clock.UsualDay - usualDay) / NeighborDays));
        return new Prior(near.Deviation * ratePerDay / near.Clock.RatePerDay, Math.Min(start.Spread, Math.Sqrt(away * away + near.Clock.Variance)));
    }

    private Learned Learn(int code, List<PhaseDate> dates, ShapeGroup group, List<Learned> learned, Prior start, IReadOnlyDictionary<IndexShape, SharedYears>? years)
    {
        var usual = OwnUsual(code, dates);
        var shapes = ShapesFor(group, usual);
        var rate = Rate(shapes, usual);
        var deviation = Deviation(code, usual, rate, learned, start);
        var thresholds = new List<(IndexShape, int, SeriesThreshold)>();
        var deviations = new List<double>();
        foreach (var (shape, from) in shapes)
        {
            var catalog = _catalog.Index(code, shape, from);
            var prior = new Prior(catalog + deviation.Mean, deviation.Spread);
            var common = years?.GetValueOrDefault(shape);
            double[] shared = [.. dates.Select(date => common?.Of(date.Series, date.Year, dates.Count) ?? 0)];
            double[] values = [.. dates.Select((date, at) => DevelopmentIndex.At(site.History!.Season(date.Year), shape, from, date.Day) - shared[at])];
            var threshold = SeriesThreshold.Fit(Screened(values, prior), [.. dates.Select(date => date.Year)], shared, prior, RobustSpread(values), rules);
            thresholds.Add((shape, from, threshold));
            if (catalog is { } mean)
                deviations.Add(threshold.At(_year) - mean);
        }
        var clock = new CodeClock(
            code, usual, [.. thresholds.Select(one => (one.Item1, one.Item2, one.Item3.At(_year)))],
            thresholds.Average(one => one.Item3.VarianceAt(_year)), rate, dates.Count);
        var series = new TrainedSeries(dates[0].Series, site.History!, group, usual, dates.Count) { Shapes = thresholds };
        return new Learned(clock, series, dates, deviations.Count == 0 ? null : deviations.Average());
    }

    private CodeClock FromCatalog(int code, double usual, ShapeGroup group, List<Learned> learned, Prior start)
    {
        var shapes = ShapesFor(group, usual);
        var rate = Rate(shapes, usual);
        var deviation = Deviation(code, usual, rate, learned, start);
        return new CodeClock(
            code, usual, [.. shapes.Select(one => (one.Shape, one.Start, _catalog.Index(code, one.Shape, one.Start)!.Value + (deviation.Mean ?? 0)))],
            deviation.Spread * deviation.Spread, rate, 0);
    }

    private static List<(IndexShape Shape, int Start)> ShapesFor(ShapeGroup group, double usual) =>
        [.. group.Shapes.Where(shape => shape.Fits(usual)).Select(shape => (shape, shape.StartDay(usual)))];

    private double Rate(List<(IndexShape Shape, int Start)> shapes, double usual) =>
        Math.Clamp(shapes.Average(one => _catalog.RatePerDay(one.Shape, one.Start, (int)Math.Round(usual))), LeastRate, HighestRate);

    // Own dates drawn to the catalog's usual date; with three own springs it is not asked any more.
    private double OwnUsual(int code, List<PhaseDate> dates)
    {
        var median = SeriesThreshold.Median([.. dates.Select(date => date.Day)]);
        var days = dates.Select(date => Math.Clamp(date.Day, median - FarthestUsualDays, median + FarthestUsualDays)).ToList();
        if (days.Count >= OwnSpringsForUsual || _catalog.UsualDay(code) is not { } catalog)
            return days.Average();
        double year = 1 / (rules.YearSpreadDays * rules.YearSpreadDays), prior = 1 / (rules.UsualSpreadDays * rules.UsualSpreadDays);
        return (days.Sum(day => Math.Clamp(day, catalog - FarthestUsualDays, catalog + FarthestUsualDays)) * year + catalog * prior) / (days.Count * year + prior);
    }

    private double ShiftDays(List<Learned> learned)
    {
        var shifts = learned.Where(one => _catalog.UsualDay(one.Clock.Bbch) is not null).ToList();
        return shifts.Count == 0 ? 0
            : shifts.Sum(one => (one.Clock.UsualDay - _catalog.UsualDay(one.Clock.Bbch)!.Value) * one.Dates.Count) / shifts.Sum(one => one.Dates.Count);
    }

    private double[] Screened(double[] values, Prior prior)
    {
        var agree = values.Length > 2 || (values.Length == 2 && Math.Abs(values[0] - values[1]) < DoubtfulSpreads * rules.YearSpread);
        if (!agree && prior.Mean is null)
            return values;
        var center = agree ? SeriesThreshold.Median(values) : prior.Mean!.Value;
        var spread = agree ? rules.YearSpread : Math.Sqrt(prior.Spread * prior.Spread + rules.YearSpread * rules.YearSpread);
        return [.. values.Select(value => Math.Abs(value - center) <= DoubtfulSpreads * spread
            ? value
            : center + Math.Sign(value - center) * DoubtfulWeight * spread)];
    }

    private double RobustSpread(double[] values)
    {
        if (values.Length < OwnSpringsForUsual)
            return rules.YearSpread;
        var median = SeriesThreshold.Median(values);
        var own = 1.48 * SeriesThreshold.Median([.. values.Select(value => Math.Abs(value - median))]);
        // Few springs may agree by chance.
        return (own * values.Length + rules.YearSpread * OwnSpringsForUsual) / (values.Length + OwnSpringsForUsual);
    }
}
