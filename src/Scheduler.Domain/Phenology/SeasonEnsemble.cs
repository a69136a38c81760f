using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// One growth year of a site as an ensemble: what is known of it, continued by the weather of each past year in turn.
/// The same past years, whole and unjoined, are the site's normal.
/// </summary>
public sealed class SeasonEnsemble
{
    /// <summary>A past year may stand in if at least this share of its days is known; short gaps are filled in a line.</summary>
    public const double LeastKnownShare = 0.97;
    private const int LongestFilledGapDays = 10;
    private const int MostPastYears = 30;

    private SeasonEnsemble(SiteWeather site, GrowthYear year, int knownDays, IReadOnlyList<SeasonMember> members, IReadOnlyList<SeasonMember> normals)
    {
        Site = site;
        Year = year;
        KnownDays = knownDays;
        Members = members;
        Normals = normals;
        Frost = FrostOutlook.Of(this);
    }

    public SiteWeather Site { get; }
    public GrowthYear Year { get; }
    /// <summary>How many days of the axis are known or forecast; later days come from past years.</summary>
    public int KnownDays { get; }
    /// <summary>The courses this growth year may take; a single one when it is wholly known.</summary>
    public IReadOnlyList<SeasonMember> Members { get; }
    /// <summary>Past years as they were, on the axis of this growth year.</summary>
    public IReadOnlyList<SeasonMember> Normals { get; }
    /// <summary>First autumn frost and the heat still to come, from the site's past years.</summary>
    public FrostOutlook Frost { get; }
    public double Latitude => Site.Latitude;
    /// <summary>Today's place on the axis; negative before the axis begins.</summary>
    public int TodayDay => Year.DayOf(Site.Today);
    public bool HasWeather => Members.Count > 0;

    public static SeasonEnsemble Build(SiteWeather site, GrowthYear year)
    {
        ArgumentNullException.ThrowIfNull(site);
        var days = site.Days.FillShortGaps(LongestFilledGapDays);
        var known = days.Slice(year.ChillStart, year.AxisEnd);
        var knownDays = LastKnown(known) + 1;

        var normals = new List<SeasonMember>();
        var members = new List<SeasonMember>();
        for (var past = year.Previous; normals.Count < MostPastYears && past.AxisEnd >= days.Start; past = past.Previous)
        {
            // A past year may use only days before today, so that a season under way is never its own normal.
            if (Trace(days, past, year, site.Today) is not { } trace)
                continue;
            normals.Add(new SeasonMember(past.Year, trace.MinC, trace.MaxC));
            if (knownDays < year.Days)
                members.Add(Joined(past.Year, known, trace));
        }
        if (knownDays >= year.Days && HoleFree(known))
            members.Add(new SeasonMember(year.Year, known.MinC.ToArray(), known.MaxC.ToArray()));
        return new SeasonEnsemble(site, year, knownDays, members, normals);
    }

    private static (double[] MinC, double[] MaxC)? Trace(TemperatureSeries days, GrowthYear past, GrowthYear year, LocalDate today)
    {
        double[] minC = new double[year.Days], maxC = new double[year.Days];
        var missing = 0;
        for (var day = 0; day < year.Days; day++)
        {
            var date = year.SameDayIn(year.DateOf(day), past);
            var index = date < today ? days.IndexOf(date) : -1;
            (minC[day], maxC[day]) = index < 0 ? (double.NaN, double.NaN) : (days.MinC[index], days.MaxC[index]);
            if (double.IsNaN(minC[day]))
                missing++;
        }
        return missing > (1 - LeastKnownShare) * year.Days ? null : (minC, maxC);
    }

    private static SeasonMember Joined(int traceYear, TemperatureSeries known, (double[] MinC, double[] MaxC) trace)
    {
        double[] minC = [.. trace.MinC], maxC = [.. trace.MaxC];
        for (var day = 0; day < known.Count; day++)
        {
            if (double.IsNaN(known.MinC[day]))
                continue;
            (minC[day], maxC[day]) = (known.MinC[day], known.MaxC[day]);
        }
        return new SeasonMember(traceYear, minC, maxC);
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

    private static bool HoleFree(TemperatureSeries known) => known.Gaps.Sum(gap => gap.Length) <= (1 - LeastKnownShare) * known.Count;
}
