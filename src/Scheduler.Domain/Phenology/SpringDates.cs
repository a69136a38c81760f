using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// Dates of the growth points counted from the start of the heat year, in every course of one season: from the development
/// index alone, or counted on from an earlier one that was seen.
/// </summary>
/// <remarks>
/// Counted on: the clock's own date, shifted by 0.7 of the error it made at the point seen, averaged with the date on which the
/// warmth usual between the two has come; farther than three weeks apart a shift of 0.4 only. Shares and three weeks were read
/// off the development records (Harvard Forest, Hubbard Brook, fruit trees); a date farther than four spreads from the
/// clock's shifts by no more than three.
/// </remarks>
internal sealed class SpringDates(SeasonEnsemble season, LocalClock clock)
{
    private const double NearDays = 21;
    private const double NearShift = 0.7;
    private const double FarShift = 0.4;
    private const double DoubtfulSpreads = 4;
    private const double MostSpreadsShifted = 3;
    private const double NearErrorShare = 0.7;
    private const double FarErrorShare = 0.9;
    // Two months after midsummer: what has not opened by then does not open this season.
    private const int LastDayAfterMidsummer = 62;
    private readonly Dictionary<int, double[]> _plain = [];

    /// <summary>Axis day of a code in each course, before any error; infinity: not this season.</summary>
    public double[] Plain(CodeClock code)
    {
        if (!_plain.TryGetValue(code.Bbch, out var days))
        {
            _plain[code.Bbch] = days = code.DaysIn(season.MemberCourses);
            for (var member = 0; member < days.Length; member++)
                days[member] = Bounded(season.Members[member], days[member]);
        }
        return days;
    }

    /// <summary>The day in one course, given that an earlier code was seen, and the spread that is left [d].</summary>
    public (double Day, double ErrorDays) After(CodeClock earlier, double seenDay, int member, CodeClock code)
    {
        double plain = Plain(code)[member], expected = Plain(earlier)[member];
        var warm = WarmDay(member, seenDay, earlier, code);
        if (!double.IsFinite(plain) || !double.IsFinite(expected))
            return (warm, code.ErrorDays * NearErrorShare);
        var gapDays = Math.Max(0, code.UsualDay - earlier.UsualDay);
        var isNear = gapDays <= NearDays;
        var error = seenDay - expected;
        var most = MostSpreadsShifted * earlier.ErrorDays;
        var shifted = plain + (isNear ? NearShift : FarShift) * Math.Clamp(error, -most, most);
        var isDoubtful = Math.Abs(error) > DoubtfulSpreads * earlier.ErrorDays;
        var day = isNear && !isDoubtful && double.IsFinite(warm) ? (shifted + warm) / 2 : shifted;
        return (Math.Max(day, seenDay), code.ErrorDays * (isNear ? NearErrorShare : FarErrorShare) * Math.Min(1, Math.Sqrt(gapDays / NearDays)));
    }

    private double WarmDay(int member, double seenDay, CodeClock earlier, CodeClock code) =>
        clock.WarmthBetween(earlier.Bbch, code.Bbch) is { } warmth
            ? season.MemberCourses.Of(SiteSprings.Warmth)[member].DayOfHeat(seenDay, warmth)
            : double.PositiveInfinity;

    private double Bounded(SeasonMember member, double day)
    {
        if (!double.IsFinite(day))
            return day;
        day = Math.Max(day, SeasonMember.FirstDayWith(member.ChillPortions, clock.LeastChillPortions));
        return day < Math.Min(member.Days, season.Year.MidsummerDay + LastDayAfterMidsummer) ? day - WarmBias(member, day) : double.PositiveInfinity;
    }

    // Springs have grown warmer: the older the year that stands in, the more too late it is.
    private double WarmBias(SeasonMember member, double day)
    {
        if (season.IsNormal)
            return 0;
        return ClockRules.LeadShare(day - season.KnownDays) * clock.Rules.WarmBiasDaysPerYear * (season.Year.Year - member.TraceYear);
    }
}
