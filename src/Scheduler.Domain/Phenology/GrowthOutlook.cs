using NodaTime;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// The growth of one plant kind through one growth year as a set of draws: each weather course of the ensemble, taken
/// with five evenly likely errors of the threshold. What the owner saw this season is fixed in every draw, and what
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
    private readonly LocalThreshold _leaf;
    private readonly LocalThreshold _flower;
    private readonly Lazy<LocalAutumn> _autumn;
    private readonly SeenPhases _seen;

    public GrowthOutlook(SeasonEnsemble season, GrowthScale scale, LocalThreshold leaf, LocalThreshold flower, IEnumerable<SeenPhase> seen, LocalAutumn? autumn = null)
    {
        ArgumentNullException.ThrowIfNull(season);
        ArgumentNullException.ThrowIfNull(scale);
        ArgumentNullException.ThrowIfNull(leaf);
        ArgumentNullException.ThrowIfNull(flower);
        ArgumentNullException.ThrowIfNull(seen);
        Season = season;
        Scale = scale;
        _leaf = leaf;
        _flower = flower;
        _autumn = new Lazy<LocalAutumn>(() => (autumn ?? LocalAutumn.Catalog(scale.Rules)).AtSite(scale, season));
        _seen = new SeenPhases(scale, season.Year, seen);
    }

    public SeasonEnsemble Season { get; }
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

    /// <summary>Early, likely and late date of a BBCH code.</summary>
    public DateBand Band(int bbch) => SeenOn(bbch) is { } seen ? DateBand.On(seen) : DateBand.Of(Year, [.. Days(bbch)]);

    /// <summary>The day the owner first saw this code this season; codes in between count as the lower placeable one.</summary>
    public LocalDate? SeenOn(int bbch) => _seen.On(bbch);

    /// <summary>True when this code or a later one of its track was seen this season.</summary>
    public bool HasPassed(int bbch) => SeenOn(bbch) is not null || _seen.FirstAfter(bbch) is not null;

    /// <summary>The latest thing the owner saw on a track this season.</summary>
    public SeenPhase? LastSeen(bool flowers) => _seen.Last(flowers);

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
            PlaceIn(Season.Members[member], member * Errors.Length, bbch, days);
        // What was seen bounds its neighbors: an earlier code came no later, a later one no earlier.
        var notBefore = DayOr(_seen.LastBefore(bbch)?.Date, double.NegativeInfinity);
        if (bbch is > 0 and <= 90)
            notBefore = Math.Max(notBefore, DayOr(_seen.DormantUntil, double.NegativeInfinity));
        var notAfter = DayOr(_seen.FirstAfter(bbch)?.Date, double.PositiveInfinity);
        for (var draw = 0; draw < days.Length; draw++)
            days[draw] = Math.Min(Math.Max(days[draw], notBefore), notAfter);
    }

    private void PlaceIn(SeasonMember member, int firstDraw, int bbch, double[] days)
    {
        var five = days.AsSpan(firstDraw, Errors.Length);
        var seenBefore = _seen.LastBefore(bbch);
        if (bbch == 0)
            Spread(five, Autumn.RestBegan(Scale, Season, member), Scale.Rules.LeastHalfWidthDays.Value);
        else if (bbch >= 92)
            PlaceAutumn(member, bbch, seenBefore, five);
        else if (Scale.FromHeatStartCd(bbch) is { } need)
            PlaceSpring(member, bbch, need, seenBefore, five);
        else if (Scale.AfterFirstLeafCd(bbch) is { } after)
            PlaceAfterFirstLeaf(member, firstDraw, after, seenBefore, five);
        else
            five.Fill(double.PositiveInfinity);
    }

    private void PlaceAutumn(SeasonMember member, int bbch, SeenPhase? seenBefore, Span<double> five)
    {
        var day = seenBefore is null
            ? _autumn.Value.DayOf(bbch, Scale, Season, member)
            : Year.DayOf(seenBefore.Date) + Autumn.DaysBetween(Scale.Rules, seenBefore.Bbch, bbch);
        Spread(five, day, NormalP90 * (seenBefore is null ? _autumn.Value.SpreadDays : Scale.Rules.AutumnStepSpreadDays.Value));
    }

    private void PlaceSpring(SeasonMember member, int bbch, double need, SeenPhase? seenBefore, Span<double> five)
    {
        var local = GrowthScale.IsFlowerCode(bbch) ? _flower : _leaf;
        if (seenBefore is not null && Scale.FromHeatStartCd(seenBefore.Bbch) is { } had)
        {
            var seenDay = Year.DayOf(seenBefore.Date) + HalfDay;
            var chill = member.ChillPortions[(int)seenDay];
            var between = Math.Max(0, need - had) * GrowthClock.ChillFactor(Scale, chill);
            Count(five, local, Math.Sqrt(between / need), factor => member.DayOfSpringWarmth(seenDay, between * factor));
            return;
        }
        Count(five, local, 1, factor => GrowthClock.DayFromHeatStart(Scale, Year, member, need, factor));
    }

    private void PlaceAfterFirstLeaf(SeasonMember member, int firstDraw, double after, SeenPhase? seenBefore, Span<double> five)
    {
        var yearSpread = Scale.Rules.YearSpread.Value;
        if (seenBefore is not null && AfterFirstLeaf(seenBefore.Bbch) is { } had)
        {
            var seenDay = Year.DayOf(seenBefore.Date) + HalfDay;
            var between = Math.Max(0, after - had);
            var share = Math.Sqrt(between / (after + Scale.FromHeatStartCd(11)!.Value));
            Count(five, new LocalThreshold(0, yearSpread, _leaf.Springs), share, factor => member.DayOfHeat(5, seenDay, between * factor));
            return;
        }
        var firstLeaf = Days(11);
        for (var error = 0; error < Errors.Length; error++)
            five[error] = member.DayOfHeat(5, firstLeaf[firstDraw + error], after * Math.Exp(Errors[error] * yearSpread));
    }

    private double? AfterFirstLeaf(int bbch) => bbch == 11 ? 0 : Scale.AfterFirstLeafCd(bbch);

    // A threshold never claims to be surer than so many days, however steep the spring; errors of sums grow with the root of the sum.
    private void Count(Span<double> five, LocalThreshold local, double shareOfWidth, Func<double, double> dayOf)
    {
        var middle = dayOf(Math.Exp(local.LogFactor));
        var halfWidth = Scale.Rules.LeastHalfWidthDays.Value * local.FloorShare(Scale.Rules) * shareOfWidth;
        for (var draw = 0; draw < five.Length; draw++)
        {
            var error = Errors[draw];
            var day = error == 0 ? middle : dayOf(Math.Exp(local.LogFactor + error * local.Spread));
            var least = middle + error / NormalP90 * halfWidth;
            five[draw] = error > 0 ? Math.Max(day, least) : error < 0 ? Math.Min(day, Math.Max(least, Year.HeatStartDay)) : day;
        }
    }

    private static void Spread(Span<double> five, double day, double halfWidthDays)
    {
        for (var draw = 0; draw < five.Length; draw++)
            five[draw] = day + Errors[draw] / NormalP90 * halfWidthDays;
    }

    private double DayOr(LocalDate? date, double otherwise) => date is { } known ? Year.DayOf(known) : otherwise;
}
