namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// Learns thresholds from dates seen at any number of places and forecasts any series: its own dates first, relatives
/// where they are few. Shapes are shared by a plant group, only thresholds are local; the forecast leans on the plant's
/// usual date as far as a place's past forecasts have earned trust.
/// </summary>
public sealed class SharedClock
{
    private readonly IReadOnlyDictionary<string, SiteHistory> _sites;
    private readonly ClockRules _rules;
    private readonly Relatives _relatives;
    private readonly Dictionary<SeriesKey, List<PhaseDate>> _dates;
    private readonly Dictionary<SeriesKey, TrainedSeries> _trained = [];
    private readonly Dictionary<(string Site, string Group), CalendarSlope> _slopes = [];
    private readonly List<KnownValue> _usual = [];
    private readonly Dictionary<IndexShape, List<KnownValue>> _thresholds = [];
    private readonly Dictionary<string, double> _spreads = [];
    private Dictionary<IndexShape, SharedYears> _years = [];

    public SharedClock(IReadOnlyDictionary<string, SiteHistory> sites, IEnumerable<PhaseDate> dates, ClockRules rules, Kinship kinship)
    {
        _sites = sites;
        _rules = rules;
        _relatives = new Relatives(kinship, rules);
        _dates = dates
            .Where(date => sites.TryGetValue(date.Site, out var site) && site.Knows(date.Year, date.Day))
            .GroupBy(date => date.Series)
            .ToDictionary(group => group.Key, group => group.OrderBy(date => date.Year).ToList());
        Train();
    }

    /// <summary>The trained series, made up from relatives if nothing was ever seen of it; null when nothing at all is known.</summary>
    public TrainedSeries? Series(SeriesKey key)
    {
        if (_trained.TryGetValue(key, out var trained))
            return trained;
        return _sites.TryGetValue(key.Site, out var site) && Unseen(key, site) is { } unseen ? _trained[key] = unseen : null;
    }

    public CalendarSlope SlopeOf(TrainedSeries series) =>
        _slopes.GetValueOrDefault((series.Key.Site, series.Group.Id)) ?? CalendarSlope.Untrained(_rules);

    /// <summary>All series of which dates taught.</summary>
    public IEnumerable<TrainedSeries> Taught => _dates.Keys.Select(key => _trained[key]);

    public SiteHistory? Site(string id) => _sites.GetValueOrDefault(id);

    /// <summary>Phases of one plant that are trained and come before this one, nearest first.</summary>
    public IEnumerable<TrainedSeries> EarlierPhases(TrainedSeries later) => _dates.Keys
        .Where(key => key.Site == later.Key.Site && key.Kind == later.Key.Kind && key.Phase != later.Key.Phase)
        .Select(key => _trained[key])
        .Where(series => series.UsualDay < later.UsualDay)
        .OrderByDescending(series => series.UsualDay);

    /// <summary>The same two phases of all plants of the place.</summary>
    public IEnumerable<(SeriesKey Earlier, SeriesKey Later)> PairsLike(SeriesKey earlier, SeriesKey later) => _dates.Keys
        .Where(key => key.Site == later.Site && key.Phase == later.Phase)
        .Select(key => (key with { Phase = earlier.Phase }, key));

    public IReadOnlyList<PhaseDate> DatesOf(SeriesKey key) => _dates.GetValueOrDefault(key) ?? [];

    private void Train()
    {
        foreach (var (key, dates) in _dates)
            _usual.Add(new KnownValue(key, dates.Average(date => date.Day)));
        var usual = _dates.ToDictionary(pair => pair.Key, pair => UsualDay(pair.Key, pair.Value));
        foreach (var (key, dates) in _dates)
        {
            foreach (var shape in _rules.GroupOf(key).Shapes.Where(shape => shape.Fits(usual[key])))
                Known(shape).Add(new KnownValue(key, SeriesThreshold.Median(Values(key, dates, shape, usual[key]))));
        }
        LearnSpreads(usual);
        LearnYears(usual);
        foreach (var (key, dates) in _dates)
            _trained[key] = Fitted(key, _sites[key.Site], dates, usual[key]);
        foreach (var unit in _trained.Values.GroupBy(series => (series.Key.Site, series.Group.Id)).ToList())
        {
            var slope = CalendarSlope.Fit(unit.Select(series => (series, (IReadOnlyList<PhaseDate>)_dates[series.Key])), _rules);
            _slopes[unit.Key] = slope;
            foreach (var series in unit)
                _trained[series.Key] = series with { ErrorDays = slope.ErrorOf(series, _rules) };
        }
    }

    // Own dates drawn towards the usual dates of relatives.
    private double UsualDay(SeriesKey key, List<PhaseDate> dates)
    {
        var prior = _relatives.PriorOf(key, _usual);
        double own = 1 / (_rules.YearSpreadDays * _rules.YearSpreadDays), other = prior.Mean is null ? 0 : 1 / (_rules.UsualSpreadDays * _rules.UsualSpreadDays);
        // Relatives of another climate say nothing about the date: with three own springs they are not asked.
        if (dates.Count >= 3 || prior.Spread > _rules.SpeciesSpread)
            other = 0;
        return (dates.Sum(date => date.Day) * own + (prior.Mean ?? 0) * other) / (dates.Count * own + other);
    }

    private double[] Values(SeriesKey key, List<PhaseDate> dates, IndexShape shape, double usualDay)
    {
        var start = shape.StartDay(usualDay);
        return [.. dates.Select(date => DevelopmentIndex.At(_sites[key.Site].Season(date.Year), shape, start, date.Day))];
    }

    private SeriesThreshold Threshold(SeriesKey key, List<PhaseDate> dates, IndexShape shape, double usualDay, string group)
    {
        var values = Values(key, dates, shape, usualDay);
        // With many own years the common part averages out, and a robust mean deals better with what is left.
        var years = dates.Count <= _rules.FewSprings ? _years.GetValueOrDefault(shape) : null;
        var spread = _spreads.GetValueOrDefault(group, _rules.YearSpread);
        var shared = dates.Select(date => years?.Of(key, date.Year, dates.Count) ?? 0).ToArray();
        for (var year = 0; year < values.Length; year++)
            values[year] -= shared[year];
        return SeriesThreshold.Fit(values, [.. dates.Select(date => date.Year)], shared, _relatives.PriorOf(key, Known(shape)), spread, _rules);
    }

    // A first round of thresholds shows what each year did to all plants of a place.
    private void LearnYears(Dictionary<SeriesKey, double> usual) => _years = SharedYears.Learned(_dates
        .Where(pair => pair.Value.Count >= 3)
        .Select(pair => (Fitted(pair.Key, _sites[pair.Key.Site], pair.Value, usual[pair.Key]), (IReadOnlyList<PhaseDate>)pair.Value))
        .ToList());

    private void LearnSpreads(Dictionary<SeriesKey, double> usual)
    {
        var deviations = new Dictionary<string, List<double>>();
        foreach (var (key, dates) in _dates.Where(pair => pair.Value.Count >= 3))
        {
            var group = _rules.GroupOf(key);
            if (group.Shapes.FirstOrDefault(shape => shape.Fits(usual[key])) is not { } shape)
                continue;
            var values = Values(key, dates, shape, usual[key]);
            var median = SeriesThreshold.Median(values);
            var list = deviations.TryGetValue(group.Id, out var known) ? known : deviations[group.Id] = [];
            list.AddRange(values.Select(value => Math.Abs(value - median)));
        }
        foreach (var (group, list) in deviations)
            _spreads[group] = 1.48 * SeriesThreshold.Median(list);
    }

    private List<KnownValue> Known(IndexShape shape) =>
        _thresholds.TryGetValue(shape, out var known) ? known : _thresholds[shape] = [];

    private TrainedSeries Fitted(SeriesKey key, SiteHistory site, List<PhaseDate> dates, double usualDay)
    {
        var group = _rules.GroupOf(key);
        return new TrainedSeries(key, site, group, usualDay, dates.Count)
        {
            Shapes = [.. group.Shapes.Where(shape => shape.Fits(usualDay)).Select(shape => (
                shape,
                shape.StartDay(usualDay),
                Threshold(key, dates, shape, usualDay, group.Id)))]
        };
    }

    // Nothing seen here: thresholds of relatives, and the usual date they would give in this place's own past weather.
    private TrainedSeries? Unseen(SeriesKey key, SiteHistory site)
    {
        if (_relatives.PriorOf(key, _usual).Mean is not { } usualDay)
            return null;
        var past = site.EarlierYears(site.LastYear + 1, 12).ToList();
        var series = Fitted(key, site, [], usualDay);
        for (var round = 0; round < 5 && past.Count > 0; round++)
        {
            var days = past.Select(season => series.CrossingDay(season, season, int.MaxValue)).Where(double.IsFinite).ToList();
            if (days.Count == 0)
                break;
            series = Fitted(key, site, [], days.Average());
        }
        var slope = SlopeOf(series);
        return series with { ErrorDays = slope.ErrorOf(series, _rules) };
    }
}
