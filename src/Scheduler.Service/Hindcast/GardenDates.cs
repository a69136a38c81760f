using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Weather;
using Scheduler.Service.Catalog;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Hindcast;

/// <summary>What a garden's owner has seen, as dates the clock learns from: first of each code on any tree of a species.</summary>
internal static class GardenDates
{
    /// <summary>The place's id inside the clock: a garden is one place.</summary>
    public const string Site = "garden";

    public static IReadOnlyList<PhaseDate> Of(PlanInputs inputs, CatalogContent catalog)
    {
        var hemisphere = Hemisphere.OfLatitude(inputs.Garden.Latitude);
        var dates =
            from tree in inputs.Trees
            let species = catalog.Species[tree.SpeciesId]
            from seen in inputs.Observations[tree.Id]
            where seen.Bbch is not null && seen.Flush is null or 1 && seen.Branch is null
            let phase = PhaseOf(species, seen.Bbch!.Value)
            where phase is not null
            let year = PhaseYears.Of(phase.Id, seen.Date, hemisphere)
            select new PhaseDate(Site, species.BotanicalName, phase.Id, year.Year, year.DayOf(seen.Date));
        return [.. dates.GroupBy(date => (date.Series, date.Year)).Select(same => same.MinBy(date => date.Day)!)];
    }

    /// <summary>The phase that a logged code shows: its own, or the one of the nearest lower code the clock can place.</summary>
    private static GrowthPhase? PhaseOf(Species species, int bbch)
    {
        var code = species.Phases.Any(phase => phase.Bbch == bbch) ? bbch : GrowthScale.Named(bbch);
        return code == 0 ? null : species.Phases.FirstOrDefault(phase => phase.Bbch == code);
    }

    public static SiteHistory History(GardenSite garden, IEnumerable<DayWeather> days, LocalDate today) => new(
        Site, garden.Latitude,
        TemperatureSeries.From(days.Where(day => day.Kind != DayKind.Forecast && day.Date <= today).Select(day => new DailyTemperature(day.Date, day.MinC, day.MaxC)))
            .ShiftedBy(garden.TemperatureOffsetC ?? 0));
}
