using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Domain.Phenology;

/// <summary>
/// When half the leaves are down in this garden: by a usual date [axis day], shifted by more or less cooling than usual [C]. The
/// usual date is what the rule of <see cref="Autumn"/> says of the site's past years until the plant's own autumns are known.
/// </summary>
/// <remarks>
/// D = U - b (C - Cu), the form of <see cref="AutumnClock"/>. U is the robust mean of the days seen, each carried to half the
/// leaves down, drawn to what the rule says for the same autumns: U = (n d / s^2 + r / t^2) / (n / s^2 + 1 / t^2), s the spread of one
/// autumn, t the error of the rule. The error of one more autumn is sqrt(s^2 + 1 / (n / s^2 + 1 / t^2)). The rule itself, year by year,
/// swings more than leaves do: against coloring at three Korean stations its dates spread by 13 days, its median with the shift by 9.
/// </remarks>
public sealed record LocalAutumn
{
    private const int LongestFilledGapDays = 10;
    private const int LeastNormals = 5;

    private LocalAutumn(double? usualDay, double usualCoolingC, double spreadDays, int autumns) =>
        (UsualDay, UsualCoolingC, SpreadDays, Autumns) = (usualDay, usualCoolingC, spreadDays, autumns);

    /// <summary>Usual axis day of half the leaves down; null: the rule says.</summary>
    public double? UsualDay { get; }
    public double UsualCoolingC { get; }
    /// <summary>Error of one autumn's date, standard deviation.</summary>
    public double SpreadDays { get; }
    public int Autumns { get; }

    /// <summary>The rule alone.</summary>
    public static LocalAutumn Catalog(GrowthRules rules)
    {
        ArgumentNullException.ThrowIfNull(rules);
        return new(null, double.NaN, rules.AutumnSpreadDays.Value, 0);
    }

    /// <summary>Where nothing was seen yet: the rule's median day over the site's past years and their mean cooling.</summary>
    public LocalAutumn AtSite(GrowthScale scale, SeasonEnsemble season)
    {
        ArgumentNullException.ThrowIfNull(scale);
        ArgumentNullException.ThrowIfNull(season);
        if (UsualDay is not null || !scale.Species.IsDeciduous || season.Normals.Count < LeastNormals)
            return this;
        var usual = SeriesThreshold.Median([.. season.Normals.Select(year => Autumn.DayOf(95, scale, season, year))]);
        return double.IsFinite(usual)
            ? new LocalAutumn(usual, season.Normals.Average(year => CoolingC(season, year, usual)), SpreadDays, 0)
            : this;
    }

    /// <summary>Learns from codes 92 to 97 seen in autumns before that of <paramref name="before"/>; several of one autumn count as one.</summary>
    public static LocalAutumn Fit(GrowthScale scale, SiteWeather site, IEnumerable<SeenPhase> seen, GrowthYear before)
    {
        ArgumentNullException.ThrowIfNull(scale);
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(seen);
        var rules = scale.Rules;
        if (!scale.Species.IsDeciduous)
            return Catalog(rules);
        var halves = seen.Where(phase => phase.Bbch is >= 92 and <= 97)
            .GroupBy(phase => new GrowthYear(YearOf(phase, before), before.Hemisphere))
            .Where(autumn => autumn.Key.Year < before.Year)
            .Select(autumn => (autumn.Key.Year, Day: autumn.Average(phase => autumn.Key.DayOf(phase.Date) - Autumn.FromHalf(rules, phase.Bbch))))
            .ToList();
        if (halves.Count == 0)
            return Catalog(rules);
        var day = NearbyYears.RobustDay(halves, before.Year);
        var days = site.Days.FillShortGaps(LongestFilledGapDays);
        var autumns = halves.Select(half => Look(scale, site.Latitude, days, new GrowthYear(half.Year, before.Hemisphere), day)).ToList();
        var cooling = autumns.Where(autumn => double.IsFinite(autumn.CoolingC)).Select(autumn => (autumn.Year, autumn.CoolingC)).ToList();
        var ruled = autumns.Where(autumn => double.IsFinite(autumn.RuleDay)).Select(autumn => autumn.RuleDay).ToList();
        var own = halves.Count / Square(rules.AutumnYearSpreadDays.Value);
        var prior = ruled.Count == 0 ? 0 : 1 / Square(rules.AutumnSpreadDays.Value);
        var usual = (own * day + (prior > 0 ? prior * ruled.Average() : 0)) / (own + prior);
        var spread = Math.Sqrt(Square(rules.AutumnYearSpreadDays.Value) + 1 / (own + prior));
        return new LocalAutumn(usual, cooling.Count == 0 ? double.NaN : NearbyYears.Mean(cooling, before.Year), spread, halves.Count);
    }

    /// <summary>Axis day of a code from 92 to 97 in one course of the season; infinity: not this season.</summary>
    public double DayOf(int bbch, GrowthScale scale, SeasonEnsemble season, SeasonMember member)
    {
        ArgumentNullException.ThrowIfNull(scale);
        ArgumentNullException.ThrowIfNull(season);
        ArgumentNullException.ThrowIfNull(member);
        if (UsualDay is not { } usual)
            return Autumn.DayOf(bbch, scale, season, member);
        var cooler = CoolingC(season, member, usual) - UsualCoolingC;
        return usual - (double.IsFinite(cooler) ? scale.Rules.AutumnDaysPerCoolingC.Value * cooler : 0) + Autumn.FromHalf(scale.Rules, bbch);
    }

    private static double CoolingC(SeasonEnsemble season, SeasonMember member, double usualDay) =>
        AutumnCooling.MeanC(member.MinC, member.MaxC, season.Light.Hours, usualDay);

    // Leaf fall of December (June) still belongs to the year that ends, as its axis does.
    private static int YearOf(SeenPhase phase, GrowthYear before)
    {
        var year = GrowthYear.Of(phase.Date, before.Hemisphere);
        return phase.Date <= year.Previous.AxisEnd ? year.Year - 1 : year.Year;
    }

    private static (int Year, double CoolingC, double RuleDay) Look(
        GrowthScale scale, double latitude, Weather.TemperatureSeries days, GrowthYear year, double usualDay)
    {
        var known = days.Slice(year.ChillStart, year.AxisEnd);
        double[] minC = known.MinC.ToArray(), maxC = known.MaxC.ToArray();
        var light = new SeasonLight(latitude, year);
        return (year.Year, AutumnCooling.MeanC(minC, maxC, light.Hours, usualDay),
            Autumn.DayOf(95, scale, light, new SeasonMember(year.Year, minC, maxC, light)));
    }

    private static double Square(double value) => value * value;
}
