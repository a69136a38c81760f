using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology;

/// <summary>A date on which a growth point was seen on a plant of this species in this garden.</summary>
public sealed record SeenPhase(int Bbch, LocalDate Date);

/// <summary>
/// How a plant's thresholds in this garden differ from the catalog's: the logarithm of the factor on heat, learned from
/// dates of past springs, and the spread that is left. With no dates it is the catalog with its prior spread.
/// </summary>
/// <remarks>
/// Normal-normal shrinkage: F = (sum h / s^2) / (n / s^2 + 1 / t^2), h = ln(warmth at the seen date / catalog need),
/// s the year-to-year spread, t the prior spread; textbook conjugate estimate. From four springs on, h farther than two
/// spreads from the median is drawn in to it, as first visits are often late. The spread left is that of one more spring:
/// sqrt(s'^2 + 1 / (n / s^2 + 1 / t^2)), where s' is s corrected by the springs themselves, s counting as ten of them.
/// </remarks>
public sealed record LocalThreshold(double LogFactor, double Spread, int Springs)
{
    private const int LongestFilledGapDays = 10;
    private const int MostMissingDays = 5;
    private const double LeastWarmthCd = 5;
    private const int SpringsBehindYearSpread = 10;

    public static LocalThreshold Catalog(GrowthRules rules)
    {
        ArgumentNullException.ThrowIfNull(rules);
        return new(0, Math.Sqrt(Square(rules.PriorSpread.Value) + Square(rules.YearSpread.Value)), 0);
    }

    /// <summary>Share of the catalog's least range that still applies: 1 without own springs, smaller with each.</summary>
    public double FloorShare(GrowthRules rules) => Math.Clamp(Spread / Catalog(rules).Spread, 0, 1);

    /// <summary>
    /// Learns from what was seen in springs before <paramref name="before"/>. Give it either leaf codes or flower codes
    /// (<see cref="GrowthScale.IsFlowerCode"/>): the two are learned apart. Several dates of one spring count as one.
    /// A spring whose weather is not known from the start of its axis teaches nothing, as its chill is not known.
    /// </summary>
    public static LocalThreshold Fit(GrowthScale scale, SiteWeather site, IEnumerable<SeenPhase> seen, GrowthYear before)
    {
        ArgumentNullException.ThrowIfNull(scale);
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(seen);
        var rules = scale.Rules;
        double s = rules.YearSpread.Value, prior = rules.PriorSpread.Value;
        var days = site.Days.FillShortGaps(LongestFilledGapDays);
        var h = seen
            .GroupBy(phase => GrowthYear.Of(phase.Date, before.Hemisphere))
            .Where(spring => spring.Key.Year < before.Year)
            .Select(spring => MeanLogRatio(scale, site.Latitude, days, spring.Key, spring))
            .OfType<double>().Order().ToList();
        if (h.Count == 0)
            return Catalog(rules);
        if (h.Count >= 4)
        {
            var median = (h[(h.Count - 1) / 2] + h[h.Count / 2]) / 2;
            h = h.ConvertAll(value => Math.Clamp(value, median - 2 * s, median + 2 * s));
        }
        var precision = h.Count / Square(s) + 1 / Square(prior);
        var factor = h.Sum() / Square(s) / precision;
        var mean = h.Average();
        var squares = SpringsBehindYearSpread * Square(s) + h.Sum(value => Square(value - mean));
        var own = squares / (SpringsBehindYearSpread + h.Count - 1);
        return new LocalThreshold(factor, Math.Sqrt(own + 1 / precision), h.Count);
    }

    private static double? MeanLogRatio(
        GrowthScale scale, double latitude, TemperatureSeries days, GrowthYear year, IEnumerable<SeenPhase> spring)
    {
        var usable = spring.Where(phase => phase.Date > year.HeatStart && scale.FromHeatStartCd(phase.Bbch) is not null).ToList();
        if (usable.Count == 0)
            return null;
        var known = days.Slice(year.ChillStart, usable.Max(phase => phase.Date));
        if (known.Gaps.Sum(gap => gap.Length) > MostMissingDays)
            return null;
        var member = new SeasonMember(year.Year, known.MinC.ToArray(), known.MaxC.ToArray(), new SeasonLight(latitude, year));
        return usable.Average(phase => LogRatio(scale, member, year.DayOf(phase.Date), scale.FromHeatStartCd(phase.Bbch)!.Value));
    }

    private static double LogRatio(GrowthScale scale, SeasonMember member, int day, double needCd)
    {
        var warmthCd = SeasonMember.HeatAt(member.SpringWarmthCd, day + 0.5);
        return Math.Log(Math.Max(warmthCd, LeastWarmthCd) / (needCd * GrowthClock.ChillFactor(scale, member.ChillPortions[day])));
    }

    private static double Square(double value) => value * value;
}
