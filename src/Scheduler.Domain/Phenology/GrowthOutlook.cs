using NodaTime;
using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// The growth of one plant kind through one growth year as a set of draws: each weather course of the ensemble, taken
/// with five evenly likely errors of the clock. What the owner saw this season is fixed in every draw, and what
/// follows counts on from there. Every date the service gives is a percentile over these draws.
/// </summary>
/// <remarks>Not for use by several threads at once: days are worked out when first asked for.</remarks>
public sealed class GrowthOutlook
{
    // Means of five equally likely fifths of a standard normal.
    private static readonly double[] Errors = [-1.400, -0.532, 0, 0.532, 1.400];
    private const double NormalP90 = 1.2816;
    // A thing was seen some time on its day.
    private const double HalfDay = 0.5;
    private readonly Dictionary<int, double[]> _days = [];
    private readonly Dictionary<int, DateBand> _bands = [];
    private readonly SpringDates _spring;
    private readonly Lazy<LocalAutumn> _autumn;
    private readonly SeenPhases _seen;

    /// <param name="scale">The tree's own scale where its leaves were counted; null: the clock's.</param>
    public GrowthOutlook(SeasonEnsemble season, LocalClock clock, IEnumerable<SeenPhase> seen, LocalAutumn? autumn = null, GrowthScale? scale = null)
    {
        ArgumentNullException.ThrowIfNull(season);
        ArgumentNullException.ThrowIfNull(clock);
        ArgumentNullException.ThrowIfNull(seen);
        Season = season;
        Clock = clock;
        Scale = scale ?? clock.Scale;
        _autumn = new Lazy<LocalAutumn>(() => (autumn ?? LocalAutumn.Catalog(Scale.Rules)).AtSite(Scale, season));
        _spring = new SpringDates(season, clock);
        _seen = new SeenPhases(Scale, season.Year, seen);
    }

    public SeasonEnsemble Season { get; }
    public LocalClock Clock { get; }
    public GrowthScale Scale { get; }
    public GrowthYear Year => Season.Year;
    public int DrawCount => Season.Members.Count * Errors.Length;
    public int TodayDay => Season.TodayDay;

    public SeasonMember MemberOf(int draw) => Season.Members[draw / Errors.Length];

    /// <summary>
    /// Axis day on which a draw reaches a BBCH code; infinity: not this season. Code 0 is the begin of the winter rest
    /// before this spring.
    /// </summary>
    public double DayOf(int draw, int bbch) => Days(bbch)[draw];

    /// <summary>The same for every draw; not to be changed.</summary>
    public double[] DaysOf(int bbch) => Days(bbch);

    /// <summary>Early, likely and late date of a BBCH code.</summary>
    public DateBand Band(int bbch) => SeenOn(bbch) is { } seen ? DateBand.On(seen) : BandOf(bbch);

    /// <summary>The day the owner first saw this code this season; codes in between count as the lower placeable one.</summary>
    public LocalDate? SeenOn(int bbch) => _seen.On(bbch);

    /// <summary>True when this code or a later one of its track was seen this season.</summary>
    public bool HasPassed(int bbch) => SeenOn(bbch) is not null || _seen.FirstAfter(bbch) is not null;

    /// <summary>The latest thing the owner saw on a track this season.</summary>
    public SeenPhase? LastSeen(bool flowers) => _seen.Last(flowers);

    private DateBand BandOf(int bbch) => _bands.TryGetValue(bbch, out var known) ? known : _bands[bbch] = DateBand.Of(Year, Days(bbch));

    private double[] Days(int bbch)
    {
        if (_days.TryGetValue(bbch, out var known))
            return known;
        var days = new double[DrawCount];
        if (SeenOn(bbch) is { } date)
            days.AsSpan().Fill(Year.DayOf(date));
        else
            Place(bbch, days);
        return _days[bbch] = days;
    }

    private void Place(int bbch, double[] days)
    {
        for (var member = 0; member < Season.Members.Count; member++)
            PlaceIn(member, bbch, days);
        // What was seen bounds its neighbors: an earlier code came no later, a later one no earlier.
        var notBefore = DayOr(_seen.LastBefore(bbch)?.Date, double.NegativeInfinity);
        if (bbch is > 0 and <= 90 && _seen.DormantUntil is { } closed)
            KeepAfterClosedBuds(closed, bbch, days);
        var notAfter = DayOr(_seen.FirstAfter(bbch)?.Date, double.PositiveInfinity);
        // Each code has a threshold of its own; within one draw they still keep the order of growth.
        var before = Before(bbch) is { } earlier ? Days(earlier) : null;
        for (var draw = 0; draw < days.Length; draw++)
            days[draw] = Math.Min(Math.Max(days[draw], before is null ? notBefore : Math.Max(notBefore, before[draw])), notAfter);
    }

    // Buds seen closed have the warmth from swollen ones (03) on still before them, whatever the clock believed; that they swell is easily missed.
    private void KeepAfterClosedBuds(LocalDate closed, int bbch, double[] days)
    {
        var warmth = Math.Max(0, Scale.FromHeatStartCd(bbch) - Scale.FromHeatStartCd(3) ?? 0);
        for (var draw = 0; draw < days.Length; draw++)
            days[draw] = Math.Max(days[draw], MemberOf(draw).DayOfSpringWarmth(Year.DayOf(closed) + HalfDay, warmth));
    }

    private int? Before(int bbch)
    {
        if (Scale.FromHeatStartCd(bbch) is not { } need)
            return null;
        int? nearest = null;
        foreach (var code in GrowthScale.Codes)
        {
            if (Clock.Of(code) is not null && GrowthScale.TrackOf(code) == GrowthScale.TrackOf(bbch) && Scale.FromHeatStartCd(code) is { } less && less < need
                && (nearest is not { } best || less > Scale.FromHeatStartCd(best)))
                nearest = code;
        }
        return nearest;
    }

    private void PlaceIn(int member, int bbch, double[] days)
    {
        var five = days.AsSpan(member * Errors.Length, Errors.Length);
        var course = Season.Members[member];
        var seenBefore = _seen.LastBefore(bbch);
        if (bbch == 0)
            Spread(five, Autumn.RestBegan(Scale, Season, course), HalfWidth(Scale.Rules.LeastHalfWidthDays.Value));
        else if (bbch >= 92)
            PlaceAutumn(course, bbch, seenBefore, five);
        else if (Scale.FromHeatStartCd(bbch) is { } need)
            PlaceSpring(member, bbch, need, seenBefore, five);
        else if (Scale.AfterFirstLeafCd(bbch) is { } after)
            PlaceAfterFirstLeaf(course, member * Errors.Length, after, seenBefore, five);
        else
            five.Fill(double.PositiveInfinity);
    }

    private void PlaceAutumn(SeasonMember member, int bbch, SeenPhase? seenBefore, Span<double> five)
    {
        var day = seenBefore is null
            ? _autumn.Value.DayOf(bbch, Scale, Season, member)
            : Year.DayOf(seenBefore.Date) + Autumn.DaysBetween(Scale.Rules, seenBefore.Bbch, bbch);
        Spread(five, day, seenBefore is null ? _autumn.Value.SpreadDays : Scale.Rules.AutumnStepSpreadDays.Value);
    }

    private void PlaceSpring(int member, int bbch, double need, SeenPhase? seenBefore, Span<double> five)
    {
        var code = Clock.Of(bbch);
        if (seenBefore is not null && Scale.FromHeatStartCd(seenBefore.Bbch) is { } had)
        {
            var seenDay = Year.DayOf(seenBefore.Date) + HalfDay;
            var (day, errorDays) = code is not null && Clock.Of(seenBefore.Bbch) is { } earlier
                ? _spring.After(earlier, seenDay, member, code)
                : (double.PositiveInfinity, 0);
            // Seen where the clock expected nothing: the catalog's heat between the two is all there is to count on.
            if (!double.IsFinite(day))
                day = Season.Members[member].DayOfSpringWarmth(seenDay, Math.Max(0, need - had));
            Spread(five, day, errorDays);
            return;
        }
        if (code is not null)
            Spread(five, _spring.Plain(code)[member], code.ErrorDays, Year.HeatStartDay);
        else
            CountOn(member, bbch, need, five);
    }

    // The catalog expects nothing here, but something before it was seen to come in past springs.
    private void CountOn(int member, int bbch, double need, Span<double> five)
    {
        if (Before(bbch) is not { } before)
        {
            five.Fill(double.PositiveInfinity);
            return;
        }
        var days = Days(before).AsSpan(member * Errors.Length, Errors.Length);
        for (var draw = 0; draw < five.Length; draw++)
            five[draw] = Season.Members[member].DayOfSpringWarmth(days[draw], need - Scale.FromHeatStartCd(before)!.Value);
    }

    private void PlaceAfterFirstLeaf(SeasonMember member, int firstDraw, double after, SeenPhase? seenBefore, Span<double> five)
    {
        var yearSpread = Scale.Rules.YearSpread.Value;
        if (seenBefore is not null && AfterFirstLeaf(seenBefore.Bbch) is { } had)
        {
            var seenDay = Year.DayOf(seenBefore.Date) + HalfDay;
            var between = Math.Max(0, after - had);
            var leastHalfWidth = Scale.Rules.LeastHalfWidthDays.Value * Math.Sqrt(between / (after + Scale.FromHeatStartCd(11)!.Value));
            for (var draw = 0; draw < five.Length; draw++)
                five[draw] = member.DayOfHeat(5, seenDay, between * Math.Exp(Errors[draw] * yearSpread));
            Widen(five, HalfWidth(leastHalfWidth));
            return;
        }
        var firstLeaf = Days(11);
        for (var error = 0; error < Errors.Length; error++)
            five[error] = member.DayOfHeat(5, firstLeaf[firstDraw + error], after * Math.Exp(Errors[error] * yearSpread));
    }

    private double? AfterFirstLeaf(int bbch) => bbch == 11 ? 0 : Scale.AfterFirstLeafCd(bbch);

    // A count of heat never claims to be surer than so many days, however steep the spring.
    private static void Widen(Span<double> five, double errorDays)
    {
        var middle = five[five.Length / 2];
        for (var draw = 0; draw < five.Length; draw++)
        {
            var least = middle + Errors[draw] * errorDays;
            five[draw] = Errors[draw] > 0 ? Math.Max(five[draw], least) : Math.Min(five[draw], least);
        }
    }

    private static void Spread(Span<double> five, double day, double errorDays, double notBefore = double.NegativeInfinity)
    {
        for (var draw = 0; draw < five.Length; draw++)
            five[draw] = Math.Max(day + Errors[draw] * errorDays, Math.Min(day, notBefore));
    }

    private static double HalfWidth(double days) => days / NormalP90;

    private double DayOr(LocalDate? date, double otherwise) => date is { } known ? Year.DayOf(known) : otherwise;
}
