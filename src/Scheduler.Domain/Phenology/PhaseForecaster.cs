using NodaTime;

namespace Scheduler.Domain.Phenology;

/// <summary>When one phase comes this season, when it normally comes, and when it came.</summary>
/// <param name="ReachedOn">The day it was seen, or the likely day once even the late date has passed.</param>
/// <param name="Seen">True when the owner saw it; false when only the clock says so.</param>
/// <param name="Remark">Why no date is given, or what makes the date doubtful; null when there is nothing to say.</param>
public sealed record PhaseForecast(GrowthPhase Phase, DateBand Band, LocalDate? Normal, LocalDate? ReachedOn, bool Seen, string? Remark);

/// <summary>One species' season at a site, to be shown to the owner.</summary>
/// <param name="DaysEarly">Days ahead of the site's normal at the next phase (or the last one reached); negative: late.</param>
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
    public static SeasonForecast Forecast(GrowthOutlook outlook, GrowthOutlook? normal)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        var today = outlook.Season.Site.Today;
        var phases = outlook.Scale.Species.Phases.Select(phase => Of(phase, outlook, normal, today)).ToList();
        return new SeasonForecast(
            outlook.Scale.Species.Id, outlook.Year, today, DaysEarly(phases),
            HeatToday(outlook.Season.Members, outlook) ?? 0,
            HeatToday(outlook.Season.Normals, outlook),
            ChillToday(outlook),
            outlook.Scale.Species.ThermalTimes.ChillPortions.Value,
            [.. outlook.Season.Normals.Select(member => member.TraceYear).Order()],
            phases);
    }

    private static PhaseForecast Of(GrowthPhase phase, GrowthOutlook outlook, GrowthOutlook? normal, LocalDate today)
    {
        var band = outlook.Band(phase.Bbch);
        var seen = outlook.SeenOn(phase.Bbch);
        var reached = seen ?? (band.Late < today ? band.Likely : null);
        if (reached is { } day)
            band = DateBand.On(day);
        return new PhaseForecast(phase, band, normal?.Band(phase.Bbch).Likely, reached, seen is not null, Remark(outlook, band));
    }

    private static string? Remark(GrowthOutlook outlook, DateBand band)
    {
        if (band.IsExpected)
            return null;
        if (!outlook.Season.HasWeather)
            return "not enough past weather is known here yet";
        return outlook.Scale.Species.GrowsWheneverWarm
            ? "has no winter rest: grows whenever it is warm and bright"
            : "not expected this season: too little warmth, or too little chill for a normal bud break";
    }

    private static double? DaysEarly(IReadOnlyList<PhaseForecast> phases)
    {
        var dated = phases.Where(phase => phase.Phase.Bbch is > 0 and < 91 && phase.Normal is not null && phase.Band.IsExpected).ToList();
        var anchor = dated.FirstOrDefault(phase => phase.ReachedOn is null) ?? dated.LastOrDefault();
        return anchor is null ? null : Period.DaysBetween(anchor.Band.Likely!.Value, anchor.Normal!.Value);
    }

    private static double? HeatToday(IReadOnlyList<SeasonMember> members, GrowthOutlook outlook)
    {
        if (members.Count == 0)
            return null;
        var end = outlook.TodayDay + 1;
        return members.Average(member => Math.Max(0, SeasonMember.HeatAt(member.Heat5Cd, end) - SeasonMember.HeatAt(member.Heat5Cd, outlook.Year.HeatStartDay)));
    }

    private static double ChillToday(GrowthOutlook outlook)
    {
        var day = Math.Clamp(outlook.TodayDay, -1, outlook.Year.Days - 1);
        return day < 0 || !outlook.Season.HasWeather ? 0 : outlook.Season.Members.Average(member => member.ChillPortions[day]);
    }
}
