using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>
/// One winter of a tree in a pot, on the axis that begins in the autumn before its growth year: in once it rests and a few
/// light frosts are taken, at the latest when the ball nears what kills roots; out when buds swell or the ball stays warm.
/// </summary>
internal sealed class WinterCourse(StorageRules rules, TreeYear year)
{
    private readonly double _inAtC = new Roots(rules, year).InAtBenchC;
    // The season's minima carry a measured offset already; without one a clear calm night counts.
    private readonly double _benchC = year.Garden.BenchOffsetC is null ? year.Thresholds.ClearCalmNightOffsetC.Value : 0;

    // One course serves several draws.
    private readonly Dictionary<SeasonMember, double> _lastCall = [];
    private readonly Dictionary<SeasonMember, double> _frosts = [];
    private readonly Dictionary<SeasonMember, double> _warm = [];

    /// <summary>Share of this place's winters in which the tree could not stay on the bench; null: no past winter is known.</summary>
    public double? ShareOfWinters
    {
        get
        {
            var winters = year.Outlook.Season.Normals.Count > 0 ? year.Outlook.Season.Normals : year.Outlook.Season.Members;
            return winters.Count == 0 ? null : (double)winters.Count(winter => double.IsFinite(LastCallDay(winter))) / winters.Count;
        }
    }

    public double[] InDays => ByDraw(InDay);

    public double[] LastInDays => ByDraw(draw => LastCallDay(year.MemberOf(draw)));

    public double[] OutDays => ByDraw(OutDay);

    public double[] LastOutDays => ByDraw(draw => year.Group.GrowsWheneverWarm
        ? OutDay(draw) + 2 * rules.OutDays.Value
        : Math.Max(OutDay(draw), year.PhaseDay(draw, 7)));

    /// <summary>Light frosts on the bench since the rest began, up to today.</summary>
    public int LightFrostsTaken
    {
        get
        {
            if (year.Outlook.DrawCount == 0)
                return 0;
            var member = year.MemberOf(0);
            return Enumerable.Range(0, Math.Clamp(year.TodayDay + 1, 0, member.Days)).Count(day => IsRecentAutumn(day) && IsFrost(member, day));
        }
    }

    private double InDay(int draw)
    {
        var member = year.MemberOf(draw);
        var bound = LastCallDay(member);
        if (year.Group.GrowsWheneverWarm || double.IsInfinity(bound))
            return bound;
        return Math.Min(Math.Max(Once(_frosts, member, FrostsTakenDay), year.PhaseDay(draw, 0)), bound);
    }

    private double FrostsTakenDay(SeasonMember member)
    {
        var frosts = 0;
        for (var day = 0; day < WinterEnd(member); day++)
        {
            if (IsFrost(member, day) && ++frosts >= rules.LightFrosts.Value)
                return day;
        }
        return double.PositiveInfinity;
    }

    private double LastCallDay(SeasonMember member) => Once(_lastCall, member, FirstTooColdDay);

    // Tender trees come in when a week is that cold, so that one cool night does not end their season; roots die in one night.
    private double FirstTooColdDay(SeasonMember member)
    {
        var nights = year.Group.GrowsWheneverWarm ? (int)rules.OutDays.Value : 1;
        var (end, sumC) = (WinterEnd(member), 0d);
        for (var day = 0; day < end; day++)
        {
            sumC += member.MinC[day] - (day >= nights ? member.MinC[day - nights] : 0);
            if (day >= nights - 1 && sumC / nights + _benchC <= _inAtC)
                return day;
        }
        return double.PositiveInfinity;
    }

    private double OutDay(int draw)
    {
        var warm = Once(_warm, year.MemberOf(draw), WarmDay);
        return year.Group.GrowsWheneverWarm ? warm : Math.Min(warm, year.PhaseDay(draw, 1));
    }

    private double WarmDay(SeasonMember member)
    {
        var (days, from) = ((int)rules.OutDays.Value, year.ShortestDay);
        var (end, run, sumC) = (Math.Min(member.Days, year.Year.MidsummerDay + 60), 0, 0d);
        for (var day = from + 1; day < end; day++)
        {
            run = member.MinC[day] + _benchC > rules.WarmClimateC.Value ? run + 1 : 0;
            sumC += MeanC(member, day) - (day - from > days ? MeanC(member, day - days) : 0);
            if (day - from >= days && (year.Group.GrowsWheneverWarm ? run >= days : sumC / days > rules.OutBallC.Value))
                return day;
        }
        return double.PositiveInfinity;
    }

    private static double MeanC(SeasonMember member, int day) => (member.MinC[day] + member.MaxC[day]) / 2;

    private static double Once(Dictionary<SeasonMember, double> known, SeasonMember member, Func<SeasonMember, double> dayOf) =>
        known.TryGetValue(member, out var day) ? day : known[member] = dayOf(member);

    private bool IsFrost(SeasonMember member, int day) => member.MinC[day] + _benchC <= rules.LightFrostC.Value;

    // On the axis lie the autumn before the growth year and the one that ends it; frost of the one that is on counts.
    private bool IsRecentAutumn(int day) => year.TodayDay >= year.Year.MidsummerDay ? day >= year.Year.MidsummerDay : day < year.Year.HeatStartDay + 90;

    private int WinterEnd(SeasonMember member) => Math.Min(member.Days, year.Year.HeatStartDay + 90);

    private double[] ByDraw(Func<int, double> dayOf) => [.. Enumerable.Range(0, year.Outlook.DrawCount).Select(dayOf)];
}
