using NodaTime;

namespace Scheduler.Domain.Phenology;

/// <summary>When one phase comes this season, when it normally comes, and when it came.</summary>
/// <param name="ReachedOn">The day it was seen, or the likely day once even the late date has passed.</param>
/// <param name="Seen">True when the owner saw it; false when only the clock says so.</param>
/// <param name="Remark">Why no date is given, or what makes the date doubtful; null when there is nothing to say.</param>
public sealed record PhaseForecast(GrowthPhase Phase, DateBand Band, LocalDate? Normal, LocalDate? ReachedOn, bool Seen, string? Remark);

/// <summary>One species' season at a site, to be shown to the owner.</summary>
/// <param name="DaysEarly">
/// Days ahead of the site's normal at the next phase from bud break on (or the last one reached); negative: late. Bud swell
/// is left out: a few mild January days move it by weeks.
/// </param>
/// <param name="NormalYears">The past years the normal is taken from.</param>
public sealed record SeasonForecast(
    string SpeciesId,
    GrowthYear Year,
    LocalDate Date,
    double? DaysEarly,
    double HeatCd,
    double? NormalHeatCd,
    double ChillPortions,
    double ChillRequired,
    IReadOnlyList<int> NormalYears,
    IReadOnlyList<PhaseForecast> Phases);

/// <summary>Turns an outlook into the phases of a season: early, likely, late, normal, reached.</summary>
public static class PhaseForecaster
{
    private const int FewYears = 5;

    /// <param name="outlook">This season, with what was seen of it.</param>
    /// <param name="normal">The same plant in <see cref="SeasonEnsemble.AsNormal"/>; null: no normal dates are given.</param>
    public static SeasonForecast Forecast(GrowthOutlook outlook, GrowthOutlook? normal)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        var season = outlook.Season;
        var phases = outlook.Scale.Species.Phases.Select(phase => Of(phase, outlook, normal)).ToList();
        return new SeasonForecast(
            outlook.Scale.Species.Id, outlook.Year, season.Site.Today, DaysEarly(phases),
            HeatToday(season.Members, outlook) ?? 0,
            HeatToday(season.Normals, outlook),
            ChillBy(season.TodayDay, season),
            outlook.Scale.Species.ThermalTimes.ChillPortions.Value,
            [.. season.Normals.Select(member => member.TraceYear).Order()],
            phases);
    }

    private static PhaseForecast Of(GrowthPhase phase, GrowthOutlook outlook, GrowthOutlook? normal)
    {
        var band = outlook.Band(phase.Bbch);
        var seen = outlook.SeenOn(phase.Bbch);
        var isPast = band.Late < outlook.Season.Site.Today || outlook.HasPassed(phase.Bbch);
        var reached = seen ?? (isPast ? band.Likely : null);
        if (reached is { } day)
            band = DateBand.On(day);
        return new PhaseForecast(phase, band, normal?.Band(phase.Bbch).Likely, reached, seen is not null, Remark(phase, outlook, band));
    }

    private static string? Remark(GrowthPhase phase, GrowthOutlook outlook, DateBand band)
    {
        var season = outlook.Season;
        if (!band.IsExpected)
            return WhyNot(phase, outlook);
        if (outlook.HasPassed(phase.Bbch))
            return null;
        if (season.Normals.Count < FewYears && season.KnownDays < season.Year.Days)
        {
            return season.Normals.Count == 1
                ? "only one past year is known here: a rough date"
                : $"only {season.Normals.Count} past years are known here: a rough date";
        }
        return outlook.Clock.Of(phase.Bbch) is { } code && outlook.Clock.TellsLittle(phase.Bbch)
            ? code.Springs >= FewYears
                ? "temperature says little about this date here: a wide range, around what was seen in past springs"
                : "winters are mild here and temperature says little about this date: a wide range, and dates of your own help most"
            : null;
    }

    private static string WhyNot(GrowthPhase phase, GrowthOutlook outlook)
    {
        var species = outlook.Scale.Species;
        if (!outlook.Season.HasWeather)
            return "not enough past weather is known here yet";
        if (species.GrowsWheneverWarm)
            return "has no winter rest: grows whenever it is warm and bright";
        if (phase == GrowthPhase.Flowering && species.ThermalTimes.FirstBloomCd is null)
            return "flowering does not follow spring warmth in this species";
        if (phase == GrowthPhase.LeafColor || phase == GrowthPhase.LeafFall || phase == GrowthPhase.Dormant)
            return "not expected this season: no autumn cold enough";
        var needed = species.ThermalTimes.ChillPortions.Value;
        return ChillBy(outlook.Year.MidsummerDay, outlook.Season) < needed * outlook.Scale.Rules.LeastChillShare.Value
            ? "not expected this season: too little winter chill for a normal bud break"
            : "not expected this season: too little warmth";
    }

    private static double? DaysEarly(IReadOnlyList<PhaseForecast> phases)
    {
        var dated = phases
            .Where(phase => phase.Phase.Bbch is >= 7 and < 91 && phase.Normal is not null && phase.Band.IsExpected)
            .OrderBy(phase => phase.Band.Likely)
            .ToList();
        var next = dated.Find(phase => phase.ReachedOn is null) ?? dated.LastOrDefault();
        return next is null ? null : Period.DaysBetween(next.Band.Likely!.Value, next.Normal!.Value);
    }

    // Up to and including today.
    private static double? HeatToday(IReadOnlyList<SeasonMember> members, GrowthOutlook outlook)
    {
        if (members.Count == 0)
            return null;
        int start = outlook.Year.HeatStartDay, end = Math.Max(start, outlook.TodayDay + 1);
        return members.Average(member => SeasonMember.HeatAt(member.Heat5Cd, end) - SeasonMember.HeatAt(member.Heat5Cd, start));
    }

    private static double ChillBy(int day, SeasonEnsemble season)
    {
        var last = Math.Min(day, season.Year.Days - 1);
        return last < 0 || !season.HasWeather ? 0 : season.Members.Average(member => member.ChillPortions[last]);
    }
}
