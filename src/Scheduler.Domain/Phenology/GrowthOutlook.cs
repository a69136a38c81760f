using NodaTime;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// The growth of one plant kind through one growth year as a set of draws: each weather course of the ensemble, taken
/// with five evenly likely errors of the threshold. What the owner saw this season is fixed in every draw, and what
/// follows counts on from there. Every date the service gives is a percentile over these draws.
/// </summary>
public sealed class GrowthOutlook
{
    // Means of five equally likely fifths of a standard normal.
    private static readonly double[] Errors = [-1.400, -0.532, 0, 0.532, 1.400];
    private readonly Dictionary<int, double[]> _days = [];
    private readonly LocalThreshold _leaf;
    private readonly LocalThreshold _flower;
    private readonly IReadOnlyList<SeenPhase> _seen;

    public GrowthOutlook(SeasonEnsemble season, GrowthScale scale, LocalThreshold leaf, LocalThreshold flower, IEnumerable<SeenPhase> seen)
    {
        ArgumentNullException.ThrowIfNull(season);
        Season = season;
        Scale = scale;
        _leaf = leaf;
        _flower = flower;
        _seen = [.. seen.Where(phase => Covers(phase.Date)).OrderBy(phase => phase.Bbch)];
    }

    public SeasonEnsemble Season { get; }
    public GrowthScale Scale { get; }
    public GrowthYear Year => Season.Year;
    public int DrawCount => Season.Members.Count * Errors.Length;
    public int TodayDay => Season.TodayDay;

    public SeasonMember MemberOf(int draw) => Season.Members[draw / Errors.Length];

    /// <summary>Axis day on which a draw reaches a BBCH code; infinity: not this season.</summary>
    public double DayOf(int draw, int bbch) => Days(bbch)[draw];

    /// <summary>Early, likely and late date of a BBCH code.</summary>
    public DateBand Band(int bbch) => SeenOn(bbch) is { } seen ? DateBand.On(seen) : DateBand.Of(Year, [.. Days(bbch)]);

    /// <summary>The day the owner saw this code (or the first later code of its track), if seen this season.</summary>
    public LocalDate? SeenOn(int bbch) => _seen.FirstOrDefault(phase => phase.Bbch == bbch)?.Date;

    /// <summary>The latest thing the owner saw on a track this season.</summary>
    public SeenPhase? LastSeen(bool flowers) => _seen.LastOrDefault(phase => GrowthScale.IsFlowerCode(phase.Bbch) == flowers && phase.Bbch > 0);

    private bool Covers(LocalDate date) => date >= Year.Turn && date <= Year.AxisEnd;

    private double[] Days(int bbch)
    {
        if (_days.TryGetValue(bbch, out var known))
            return known;
        var days = new double[DrawCount];
        for (var draw = 0; draw < days.Length; draw++)
            days[draw] = Day(draw, bbch);
        return _days[bbch] = days;
    }

    private double Day(int draw, int bbch)
    {
        if (bbch == 0)
            return 0;
        if (SeenOn(bbch) is { } date)
            return Year.DayOf(date);
        var day = bbch >= 93 ? Autumn.DayOf(bbch, Scale, Season, MemberOf(draw)) : GrowingDay(draw, bbch);
        return Bounded(bbch, day);
    }

    private double GrowingDay(int draw, int bbch)
    {
        if (Anchor(bbch) is { } anchor && HeatBetween(anchor.Bbch, bbch) is { } between)
            return MemberOf(draw).DayOfHeat(5, Year.DayOf(anchor.Date) + 1, between * Math.Exp(Errors[draw % Errors.Length] * Scale.Rules.YearSpread.Value));
        var local = GrowthScale.IsFlowerCode(bbch) ? _flower : _leaf;
        if (Scale.FromHeatStartCd(bbch) is { } need)
            return FromHeatStart(draw, need, local);
        if (Scale.AfterFirstLeafCd(bbch) is not { } after)
            return double.PositiveInfinity;
        var factor = Math.Exp(Errors[draw % Errors.Length] * Scale.Rules.YearSpread.Value);
        return MemberOf(draw).DayOfHeat(5, DayOf(draw, 11), after * factor);
    }

    private double FromHeatStart(int draw, double needCd, LocalThreshold local)
    {
        var error = Errors[draw % Errors.Length];
        var day = GrowthClock.DayFromHeatStart(Scale, Year, MemberOf(draw), needCd, Math.Exp(local.LogFactor + error * local.Spread));
        if (error == 0 || double.IsPositiveInfinity(day))
            return day;
        // A catalog threshold never claims to be surer than so many days, however steep the spring.
        var middle = GrowthClock.DayFromHeatStart(Scale, Year, MemberOf(draw), needCd, Math.Exp(local.LogFactor));
        var floor = middle + error / 1.2816 * Scale.Rules.LeastHalfWidthDays.Value * local.FloorShare(Scale.Rules);
        return error > 0 ? Math.Max(day, floor) : Math.Min(day, Math.Max(floor, Year.HeatStartDay));
    }

    // The last thing seen before this code on its own track.
    private SeenPhase? Anchor(int bbch) =>
        _seen.LastOrDefault(phase => phase.Bbch > 0 && phase.Bbch < bbch && phase.Bbch < 93 && Track(phase.Bbch) == Track(bbch));

    private static int Track(int bbch) => GrowthScale.IsFlowerCode(bbch) ? 5 : bbch >= 93 ? 9 : 0;

    private double? HeatBetween(int from, int to)
    {
        if (SinceStart(from) is not { } start || SinceStart(to) is not { } end)
            return null;
        return Math.Max(0, end - start);
    }

    private double? SinceStart(int bbch) => Scale.FromHeatStartCd(bbch) ?? Scale.FromHeatStartCd(11) + Scale.AfterFirstLeafCd(bbch);

    // What was seen bounds its neighbors: an earlier code came no later, a later one no earlier.
    private double Bounded(int bbch, double day)
    {
        foreach (var phase in _seen)
        {
            if (phase.Bbch == 0 || Track(phase.Bbch) != Track(bbch))
                continue;
            var seen = Year.DayOf(phase.Date);
            if (phase.Bbch > bbch && IsBefore(bbch, phase.Bbch))
                day = Math.Min(day, seen);
            else if (phase.Bbch < bbch && IsBefore(phase.Bbch, bbch))
                day = Math.Max(day, seen);
        }
        return day;
    }

    // Shoot codes (31-39) run beside leaf codes (11-19): only the heat axis tells which comes first.
    private bool IsBefore(int first, int second) =>
        SinceStart(first) is { } a && SinceStart(second) is { } b ? a <= b : first < second;
}
