namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// The growth clock of one garden: every species' thresholds, from the catalog first and from the garden's own springs as
/// they come in; what was seen of a species also tells a little of its genus and family.
/// </summary>
/// <remarks>Not for use by several threads at once: species are worked out when first asked for.</remarks>
public sealed class GardenClock
{
    private const string Here = "here";
    // Where winters are too mild for temperature to tell much, so many days are added to the error until own springs show it.
    private const double MildWinterErrorDays = 6;
    private const double SpringsToKnowMildWinter = 3;
    private const double P90 = 1.2816;
    private readonly SiteSprings _site;
    private readonly GrowthRules _growth;
    private readonly ClockRules _rules;
    private readonly Kinship _kinship;
    private readonly Dictionary<string, Own> _own;
    private readonly Dictionary<string, LocalClock> _clocks = [];
    private readonly Dictionary<string, CalendarSlope> _slopes = [];
    private readonly List<KnownValue> _deviations = [];
    private BandCalibration? _bands;

    /// <param name="seen">What was seen here of each species; only springs before the one under way teach.</param>
    public GardenClock(SiteSprings site, GrowthRules growth, ClockRules rules, Kinship kinship, IEnumerable<(Species Species, IReadOnlyList<SeenPhase> Seen)> seen)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(seen);
        (_site, _growth, _rules, _kinship) = (site, growth, rules, kinship);
        if (site.History is null || !site.HasPastYears)
        {
            _own = [];
            return;
        }
        lock (site.History)
        {
            _own = seen.Select(one => new Own(new GrowthScale(one.Species, growth), DatesOf(one.Species, one.Seen)))
                .Where(one => one.Dates.Count > 0)
                .ToDictionary(one => one.Scale.Species.Id);
            Learn();
        }
    }

    /// <summary>A clock that has learned nothing of its own yet.</summary>
    public static GardenClock OfCatalog(SiteSprings site, GrowthRules growth, ClockRules rules) =>
        new(site, growth, rules, new Kinship(new Dictionary<string, string>()), []);

    public LocalClock Of(Species species)
    {
        ArgumentNullException.ThrowIfNull(species);
        if (_clocks.TryGetValue(species.Id, out var known))
            return known;
        if (_site.History is null || !_site.HasPastYears)
            return _clocks[species.Id] = new LocalClock(new GrowthScale(species, _growth), _site, _rules, new Dictionary<int, CodeClock>(), default, 0);
        lock (_site.History)
            return _clocks[species.Id] = Made(_own.GetValueOrDefault(species.Id) ?? new Own(new GrowthScale(species, _growth), []));
    }

    private sealed record Own(GrowthScale Scale, Dictionary<int, List<PhaseDate>> Dates)
    {
        public Dictionary<bool, FittedTrack> Tracks { get; } = [];
    }

    // Twice: relatives can only speak once they are fitted themselves.
    private void Learn()
    {
        foreach (var flower in new[] { false, true })
        {
            foreach (var one in _own.Values)
            {
                one.Tracks[flower] = new TrackFitter(_site, one.Scale, _rules).Fit(flower, one.Dates, default);
                if (one.Tracks[flower].Deviation is { } deviation)
                    _deviations.Add(new KnownValue(Key(one.Scale.Species, flower), deviation));
            }
            foreach (var one in _own.Values.Where(_ => _own.Count > 1))
                one.Tracks[flower] = new TrackFitter(_site, one.Scale, _rules).Fit(flower, one.Dates, RelativesOf(one.Scale.Species, flower));
        }
        LearnYears();
        foreach (var unit in _own.Values.SelectMany(one => one.Tracks.Values).GroupBy(track => track.Group.Id))
        {
            var learned = unit.SelectMany(track => track.Learned).ToList();
            if (learned.Count > 0)
                _slopes[unit.Key] = CalendarSlope.Fit(learned, _rules);
        }
        LearnBands();
    }

    // Species seen for few springs are freed from what those springs did to all plants of the garden.
    private void LearnYears()
    {
        var years = SharedYears.Learned(_own.Values.SelectMany(one => one.Tracks.Values).SelectMany(track => track.Learned));
        if (years.Count == 0)
            return;
        foreach (var one in _own.Values.Where(one => one.Dates.Values.Any(dates => dates.Count <= _rules.FewSprings)))
        {
            foreach (var flower in one.Tracks.Keys.ToList())
                one.Tracks[flower] = new TrackFitter(_site, one.Scale, _rules).Fit(flower, one.Dates, _own.Count > 1 ? RelativesOf(one.Scale.Species, flower) : default, years);
        }
    }

    private void LearnBands()
    {
        var scores = _own.Values.SelectMany(one => one.Tracks.Values).Where(track => _slopes.ContainsKey(track.Group.Id))
            .GroupBy(track => track.Group.Id)
            .ToDictionary(unit => (Here, unit.Key), unit => (IReadOnlyList<(int, double)>)[.. unit.SelectMany(track => track.Learned).SelectMany(one => Scores(one.Series, _slopes[unit.Key]))]);
        _bands = new BandCalibration(scores);
    }

    private IEnumerable<(int Year, double Score)> Scores(TrainedSeries series, CalendarSlope slope)
    {
        var tested = series with { ErrorDays = slope.ErrorOf(series, _rules) };
        return slope.ErrorsOf(series.Key).Select(error => (error.Year, BandCalibration.Score(Around(P90 * tested.ErrorIn(error.Year)), error.Days)));
    }

    private static DayForecast Around(double halfWidth) => new(-halfWidth, 0, halfWidth);

    private Prior RelativesOf(Species species, bool flower) => new Relatives(_kinship, _rules).PriorOf(Key(species, flower), _deviations);

    private static SeriesKey Key(Species species, bool flower) => new(Here, species.BotanicalName, flower ? "flower" : "leaf");

    private LocalClock Made(Own own)
    {
        var codes = new Dictionary<int, CodeClock>();
        foreach (var flower in new[] { false, true })
        {
            var track = own.Tracks.GetValueOrDefault(flower)
                ?? new TrackFitter(_site, own.Scale, _rules).Fit(flower, own.Dates, RelativesOf(own.Scale.Species, flower));
            var slope = _slopes.GetValueOrDefault(track.Group.Id) ?? CalendarSlope.Untrained(_rules);
            foreach (var code in track.Codes)
                codes[code.Bbch] = code with { Slope = slope.Of(Key(own.Scale.Species, flower)), ErrorDays = ErrorOf(code, track, slope) };
        }
        return new LocalClock(own.Scale, _site, _rules, codes, (Springs(own, false), Springs(own, true)), LeastChill(own));
    }

    private double ErrorOf(CodeClock code, FittedTrack track, CalendarSlope slope)
    {
        var series = track.Learned.FirstOrDefault(one => one.Series.Springs == code.Springs && one.Series.UsualDay == code.UsualDay).Series
            ?? new TrainedSeries(new SeriesKey(Here, "", ""), _site.History!, track.Group, code.UsualDay, 0) { Shapes = [] };
        // The threshold's part is reckoned here, from this site's own rise of the index.
        var own = slope.ErrorOf(series, _rules) * (code.Springs > 0 ? _bands?.Of(Here, track.Group.Id) ?? 1 : 1);
        var mild = LocalClock.IsMild(_site) ? MildWinterErrorDays * Math.Sqrt(SpringsToKnowMildWinter / (SpringsToKnowMildWinter + code.Springs)) : 0;
        return Math.Sqrt(own * own + code.Variance / (code.RatePerDay * code.RatePerDay) + mild * mild);
    }

    private static int Springs(Own own, bool flower) => own.Dates
        .Where(code => GrowthScale.IsFlowerCode(code.Key) == flower)
        .SelectMany(code => code.Value).Select(date => date.Year).Distinct().Count();

    // What the owner has seen come under little chill does come under little chill.
    private double LeastChill(Own own)
    {
        var least = own.Scale.Species.ThermalTimes.ChillPortions.Value * _growth.LeastChillShare.Value;
        foreach (var date in own.Dates.Values.SelectMany(dates => dates))
            least = Math.Min(least, 0.9 * _site.History!.Season(date.Year).ChillPortions[(int)date.Day]);
        return least;
    }

    private Dictionary<int, List<PhaseDate>> DatesOf(Species species, IReadOnlyList<SeenPhase> seen)
    {
        var scale = new GrowthScale(species, _growth);
        var hemisphere = _site.Season.Year.Hemisphere;
        return seen
            .Select(phase => (Code: GrowthScale.Named(phase.Bbch), Year: GrowthYear.Of(phase.Date, hemisphere), phase.Date))
            .Where(one => one.Code is > 0 && scale.FromHeatStartCd(one.Code.Value) is not null && one.Year.Year < _site.Season.Year.Year)
            .GroupBy(one => (Code: one.Code!.Value, one.Year))
            .Select(same => (same.Key.Code, Date: new PhaseDate(
                Here, species.BotanicalName, $"{(GrowthScale.IsFlowerCode(same.Key.Code) ? "flower" : "leaf")} {same.Key.Code}",
                same.Key.Year.Year, same.Key.Year.DayOf(same.Min(one => one.Date)))))
            .Where(one => _site.History!.Knows(one.Date.Year, one.Date.Day))
            .GroupBy(one => one.Code, one => one.Date)
            .ToDictionary(code => code.Key, code => code.OrderBy(date => date.Year).ToList());
    }
}
