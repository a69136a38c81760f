using NodaTime;

namespace Scheduler.Domain.Phenology;

/// <summary>A date on which a growth point was seen on a plant of this species in this garden.</summary>
public sealed record SeenPhase(int Bbch, LocalDate Date);

/// <summary>
/// How a plant's thresholds in this garden differ from the catalog's: the logarithm of the factor on heat, learned from
/// dates of past springs, and the spread that is left. With no dates it is the catalog with its prior spread.
/// </summary>
/// <remarks>
/// Normal-normal shrinkage: F = (sum h / s^2) / (n / s^2 + 1 / t^2), h = ln(heat at the seen date / catalog need),
/// s the year-to-year spread, t the prior spread; textbook conjugate estimate. From four dates on, h farther than two
/// spreads from the median is drawn in to it, as first visits are often late.
/// </remarks>
public sealed record LocalThreshold(double LogFactor, double Spread, int Springs)
{
    public static LocalThreshold Catalog(GrowthRules rules) =>
        new(0, Math.Sqrt(Square(rules.PriorSpread.Value) + Square(rules.YearSpread.Value)), 0);

    /// <summary>Share of the catalog's least range that still applies: 1 without own springs, smaller with each.</summary>
    public double FloorShare(GrowthRules rules) => Math.Clamp(Spread / Catalog(rules).Spread, 0, 1);

    public static LocalThreshold Fit(GrowthScale scale, SiteWeather site, IEnumerable<SeenPhase> seen, GrowthYear before)
    {
        ArgumentNullException.ThrowIfNull(scale);
        var rules = scale.Rules;
        double s = rules.YearSpread.Value, prior = rules.PriorSpread.Value;
        var h = seen
            .Where(phase => GrowthYear.Of(phase.Date, before.Hemisphere).Year < before.Year)
            .Select(phase => LogRatio(scale, site, phase))
            .OfType<double>().Order().ToList();
        if (h.Count == 0)
            return Catalog(rules);
        if (h.Count >= 4)
        {
            var median = h[h.Count / 2];
            h = h.ConvertAll(value => Math.Clamp(value, median - 2 * s, median + 2 * s));
        }
        var precision = h.Count / Square(s) + 1 / Square(prior);
        return new LocalThreshold(h.Sum() / Square(s) / precision, Math.Sqrt(Square(s) + 1 / precision), h.Count);
    }

    private static double? LogRatio(GrowthScale scale, SiteWeather site, SeenPhase phase)
    {
        var year = GrowthYear.Of(phase.Date, site.Hemisphere);
        if (scale.FromHeatStartCd(phase.Bbch) is not { } need || phase.Date <= year.HeatStart)
            return null;
        var known = site.Days.Slice(year.ChillStart, phase.Date).FillShortGaps(10);
        if (known.Gaps.Sum(gap => gap.Length) > 5)
            return null;
        var member = new SeasonMember(year.Year, known.MinC.ToArray(), known.MaxC.ToArray());
        var last = member.Days - 1;
        var heat = (member.Heat5Cd[last] + member.Heat5Cd[Math.Max(0, last - 1)]) / 2 - SeasonMember.HeatAt(member.Heat5Cd, year.HeatStartDay);
        return Math.Log(Math.Max(heat, 5) / (need * GrowthClock.ChillFactor(scale, member.ChillPortions[last])));
    }

    private static double Square(double value) => value * value;
}
