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

    /// <summary>Share of this place's winters in which the tree could not stay on the bench; null: no past winter is known.</summary>
    public double? ShareOfWinters
    {
        get
        {
            var winters = year.Outlook.Season.Normals.Count > 0 ? year.Outlook.Season.Normals : year.Outlook.Season.Members;
            return winters.Count == 0 ? null : (double)winters.Count(winter => double.IsFinite(LastCallDay(winter))) / winters.Count;
        }
    }

    public double[] InDays
    {
        get
        {
            var bounds = LastInDays;
            if (year.Group.GrowsWheneverWarm)
                return bounds;
            var frosts = ByCourse(FrostsTakenDay);
            var rest = year.PhaseDays(0);
            return ByDraw(draw => double.IsInfinity(bounds[draw]) ? bounds[draw] : Math.Min(Math.Max(frosts[draw], rest[draw]), bounds[draw]));
        }
    }

    public double[] LastInDays => ByCourse(LastCallDay);

    public double[] OutDays
    {
        get
        {
            var warm = ByCourse(WarmDay);
            if (year.Group.GrowsWheneverWarm)
                return warm;
            var swelling = year.PhaseDays(1);
            return ByDraw(draw => Math.Min(warm[draw], swelling[draw]));
        }
    }

    /// <param name="outDays">The days from <see cref="OutDays"/>.</param>
    public double[] LastOutDays(double[] outDays)
    {
        if (year.Group.GrowsWheneverWarm)
            return ByDraw(draw => outDays[draw] + 2 * rules.OutDays.Value);
        var breaking = year.PhaseDays(7);
        return ByDraw(draw => Math.Max(outDays[draw], breaking[draw]));
    }

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

    // Tender trees come in when a week is that cold, so that one cool night does not end their season; roots die in one night.
    private double LastCallDay(SeasonMember member)
    {
        var end = WinterEnd(member);
        if (!year.Group.GrowsWheneverWarm)
            return member.FirstNightAtMost(_inAtC - _benchC) is var night && night < end ? night : double.PositiveInfinity;
        var (nights, sumC) = ((int)rules.OutDays.Value, 0d);
        for (var day = 0; day < end; day++)
        {
            sumC += member.MinC[day] - (day >= nights ? member.MinC[day - nights] : 0);
            if (day >= nights - 1 && sumC / nights + _benchC <= _inAtC)
                return day;
        }
        return double.PositiveInfinity;
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

    private bool IsFrost(SeasonMember member, int day) => member.MinC[day] + _benchC <= rules.LightFrostC.Value;

    // On the axis lie the autumn before the growth year and the one that ends it; frost of the one that is on counts.
    private bool IsRecentAutumn(int day) => year.TodayDay >= year.Year.MidsummerDay ? day >= year.Year.MidsummerDay : day < year.Year.HeatStartDay + 90;

    private int WinterEnd(SeasonMember member) => Math.Min(member.Days, year.Year.HeatStartDay + 90);

    // One course serves several draws.
    private double[] ByCourse(Func<SeasonMember, double> dayOf)
    {
        var days = new double[year.Outlook.DrawCount];
        for (var draw = 0; draw < days.Length; draw++)
            days[draw] = draw > 0 && year.MemberOf(draw) == year.MemberOf(draw - 1) ? days[draw - 1] : dayOf(year.MemberOf(draw));
        return days;
    }

    private double[] ByDraw(Func<int, double> dayOf)
    {
        var days = new double[year.Outlook.DrawCount];
        for (var draw = 0; draw < days.Length; draw++)
            days[draw] = dayOf(draw);
        return days;
    }
}
