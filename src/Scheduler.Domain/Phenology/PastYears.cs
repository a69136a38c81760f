using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// A site's past growth years, newest first, each on its own axis, so that the ensembles of two growth years can share
/// their sums. Only days before today are used: a season under way is never its own normal.
/// </summary>
internal sealed class PastYears
{
    private const int MostYears = 30;
    private readonly List<(GrowthYear Year, SeasonMember Course)> _years = [];

    private PastYears()
    {
    }

    public static PastYears Before(GrowthYear year, SiteWeather site, TemperatureSeries days)
    {
        var years = new PastYears();
        var light = new SiteLight(site.Latitude);
        for (var past = year.Previous; years._years.Count < MostYears && past.AxisEnd >= days.Start; past = past.Previous)
        {
            if (Course(past, site, light, days) is { } course)
                years._years.Add((past, course));
        }
        return years;
    }

    /// <summary>The same with the year itself, if it is over by now.</summary>
    public PastYears Through(GrowthYear year, SiteWeather site, TemperatureSeries days)
    {
        if (Course(year, site, new SiteLight(site.Latitude), days) is not { } course)
            return this;
        var years = new PastYears();
        years._years.Add((year, course));
        years._years.AddRange(_years.Take(MostYears - 1));
        return years;
    }

    public IReadOnlyList<SeasonMember> OnAxisOf(GrowthYear year) =>
        _years.ConvertAll(past => past.Course.OnAxis(past.Year, year));

    private static SeasonMember? Course(GrowthYear year, SiteWeather site, SiteLight light, TemperatureSeries days)
    {
        var until = LocalDate.Min(year.AxisEnd, site.Today.PlusDays(-1));
        if (until < year.ChillStart)
            return null;
        var known = days.Slice(year.ChillStart, until);
        var missing = year.Days - known.Count + known.Gaps.Sum(gap => gap.Length);
        if (missing > (1 - SeasonEnsemble.LeastKnownShare) * year.Days)
            return null;
        double[] minC = new double[year.Days], maxC = new double[year.Days];
        minC.AsSpan().Fill(double.NaN);
        maxC.AsSpan().Fill(double.NaN);
        known.MinC.CopyTo(minC);
        known.MaxC.CopyTo(maxC);
        return new SeasonMember(year.Year, minC, maxC, light.Of(year));
    }
}
