using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// One growth year of a site as an ensemble: what is known of it, continued by the weather of each past year in turn.
/// The same past years, whole and unjoined, are the site's normal.
/// </summary>
/// <remarks>Extended streamflow prediction carried over to heat: Day, J. Water Resour. Plann. Manage. 111 (1985), from memory.</remarks>
public sealed class SeasonEnsemble
{
    /// <summary>A past year may stand in if at least this share of its days is known; short gaps are filled in a line.</summary>
    public const double LeastKnownShare = 0.97;
    private const int LongestFilledGapDays = 14;
    private readonly TemperatureSeries _days;
    private readonly PastYears _past;

    private SeasonEnsemble(SiteWeather site, GrowthYear year, TemperatureSeries days, PastYears past)
    {
        (Site, Year, _days, _past) = (site, year, days, past);
        Light = new SeasonLight(site.Latitude, year);
        Normals = past.OnAxisOf(year);
        var known = days.Slice(year.ChillStart, year.AxisEnd);
        KnownDays = LastKnown(known) + 1;
        Members = Courses(known);
        NormalCourses = new CourseSet(Normals, Light);
        MemberCourses = ReferenceEquals(Members, Normals) ? NormalCourses : new CourseSet(Members, Light);
        Frost = FrostOutlook.Of(this);
    }

    private SeasonEnsemble(SeasonEnsemble from)
    {
        (Site, Year, _days, _past, Light, Frost) = (from.Site, from.Year, from._days, from._past, from.Light, from.Frost);
        Normals = from.Normals;
        Members = from.Normals;
        (NormalCourses, MemberCourses) = (from.NormalCourses, from.NormalCourses);
        IsNormal = true;
    }

    public SiteWeather Site { get; }
    public GrowthYear Year { get; }
    /// <summary>Day lengths on the axis.</summary>
    public SeasonLight Light { get; }
    /// <summary>Days up to the last one that is known or forecast; later days, and long holes before, come from past years.</summary>
    public int KnownDays { get; }
    /// <summary>The courses this growth year may take; a single one when it is wholly known.</summary>
    public IReadOnlyList<SeasonMember> Members { get; }
    /// <summary>True when past years stand for themselves, as if nothing were known of this one.</summary>
    public bool IsNormal { get; }
    /// <summary>Past years as they were, on the axis of this growth year.</summary>
    public IReadOnlyList<SeasonMember> Normals { get; }
    /// <summary>The development index in the courses of <see cref="Members"/> and of <see cref="Normals"/>.</summary>
    public CourseSet MemberCourses { get; }
    public CourseSet NormalCourses { get; }
    /// <summary>First autumn frost and the heat still to come, from the site's past years.</summary>
    public FrostOutlook Frost { get; }
    public double Latitude => Site.Latitude;
    /// <summary>Today's place on the axis; negative before the axis begins.</summary>
    public int TodayDay => Year.DayOf(Site.Today);
    /// <summary>False when nothing can be said: the year is not wholly known and no past year can stand in.</summary>
    public bool HasWeather => Members.Count > 0;

    public static SeasonEnsemble Build(SiteWeather site, GrowthYear year)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (year.Hemisphere != site.Hemisphere)
            throw new ArgumentException($"Latitude {site.Latitude} has no growth year of the {year.Hemisphere}.", nameof(year));
        var days = site.Days.FillShortGaps(LongestFilledGapDays);
        return new SeasonEnsemble(site, year, days, PastYears.Before(year, site, days));
    }

    /// <summary>The next growth year of the same site; shares the past years' sums, so it costs little.</summary>
    public SeasonEnsemble Following() => new(Site, Year.Next, _days, _past.Through(Year, Site, _days));

    /// <summary>The growth year as past years would have it, as if nothing were known of it.</summary>
    public SeasonEnsemble AsNormal() => new(this);

    private IReadOnlyList<SeasonMember> Courses(TemperatureSeries known)
    {
        if (KnownDays == 0)
            return Normals;
        var missing = Year.Days - known.Count + known.Gaps.Sum(gap => gap.Length);
        if (missing == 0 || (Normals.Count == 0 && missing <= (1 - LeastKnownShare) * Year.Days))
            return [new SeasonMember(Year.Year, known.MinC.ToArray(), known.MaxC.ToArray(), Light)];

        // All courses begin with the same days, so their chill is added up once.
        var shared = known.Gaps.Count == 0 ? known.Count : Year.DayOf(known.Gaps[0].Start);
        var state = new TabulatedChill();
        var chill = SeasonMember.Chill(known.MinC[..shared].ToArray(), known.MaxC[..shared].ToArray(), Light.MidsummerDay, [], ref state);
        return [.. Normals.Select(past => Joined(past, known, chill, state))];
    }

    private SeasonMember Joined(SeasonMember past, TemperatureSeries known, double[] chill, TabulatedChill state)
    {
        double[] minC = [.. past.MinC], maxC = [.. past.MaxC];
        for (var day = 0; day < known.Count; day++)
        {
            if (double.IsNaN(known.MinC[day]))
                continue;
            (minC[day], maxC[day]) = (known.MinC[day], known.MaxC[day]);
        }
        return new SeasonMember(past.TraceYear, minC, maxC, Light, chill, state);
    }

    private static int LastKnown(TemperatureSeries known)
    {
        for (var day = known.Count - 1; day >= 0; day--)
        {
            if (!double.IsNaN(known.MinC[day]))
                return day;
        }
        return -1;
    }
}
