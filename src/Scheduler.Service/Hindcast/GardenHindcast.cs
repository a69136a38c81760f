using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Service.Hindcast;

/// <summary>Dates the observed years of one series again, each from what the other years taught.</summary>
internal sealed class GardenHindcast(SiteHistory site, IReadOnlyList<PhaseDate> dates, ClockRules rules, Kinship kinship)
{
    /// <param name="leadDays">Null: the whole season's weather; else issued so many days before the usual date, the mean of the other years.</param>
    public HindcastAnswer Answer(SeriesKey key, int? leadDays)
    {
        var observed = dates.Where(date => date.Series == key).OrderBy(date => date.Year).ToList();
        if (observed.Count == 0)
            return HindcastAnswer.Of([], $"No {key.Phase} of {key.Kind} has been logged in this garden: log the date each spring or autumn to see how well the clock does.");
        var years = observed.ConvertAll(seen => Year(seen, observed.Where(date => date.Year != seen.Year).ToList(), leadDays));
        var untold = years.Count(year => year.Likely is null);
        return HindcastAnswer.Of(years, untold == 0 ? null : leadDays is null
            ? $"For {untold} of {years.Count} years there is no weather, or nothing else to learn from."
            : $"For {untold} of {years.Count} years there is no weather or nothing else to learn from, or the phase had come before the day of issue.");
    }

    private HindcastYear Year(PhaseDate seen, List<PhaseDate> others, int? leadDays)
    {
        var axis = new GrowthYear(seen.Year, site.Hemisphere);
        var shown = PhaseYears.Stated(seen.Phase, axis);
        var observedOn = axis.DateOf((int)seen.Day);
        int? issued = leadDays is { } lead && others.Count > 0 ? (int)Math.Floor(others.Average(date => date.Day)) - lead : null;
        if (!site.Knows(seen.Year, seen.Day) || seen.Day <= issued || (leadDays is not null && issued is null))
            return new HindcastYear(shown, observedOn, null, null, null);
        var forecast = Forecast(seen, axis, issued);
        if (!forecast.IsExpected)
            return new HindcastYear(shown, observedOn, null, null, null);
        var first = (issued ?? int.MinValue) + 1d;
        return new HindcastYear(shown, observedOn, Date(Math.Floor(forecast.Early)), Date(Math.Round(forecast.Likely)), Date(Math.Ceiling(forecast.Late)));

        LocalDate Date(double day) => axis.DateOf((int)Math.Max(day, first));
    }

    private DayForecast Forecast(PhaseDate seen, GrowthYear axis, int? issued)
    {
        var place = issued is { } day ? site.During(seen.Year, SiteHistory.LastWholeYear(axis, axis.DateOf(day))) : site;
        var sites = new Dictionary<string, SiteHistory> { [site.Id] = place };
        var known = dates.Where(date => date.Year != seen.Year);
        if (PhaseYears.IsAutumn(seen.Phase))
            return new AutumnClock(sites, known.Where(date => PhaseYears.IsAutumn(date.Phase)), rules, kinship).Forecast(seen.Series, seen.Year, issued);
        var clock = new SharedClock(sites, known.Where(date => !PhaseYears.IsAutumn(date.Phase)), rules, kinship);
        return new SeriesForecaster(clock, rules).Forecast(seen.Series, seen.Year, issued);
    }
}
