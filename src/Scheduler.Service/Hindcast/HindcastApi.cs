using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Service.Catalog;
using Scheduler.Service.Hosting;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Hindcast;

/// <summary>How well the growth clock did in a garden's past years.</summary>
internal static class HindcastApi
{
    private const int LongestLeadDays = 180;

    public static void MapHindcast(this WebApplication app) => app.MapOwned("plans").MapGet("/gardens/{id:guid}/hindcast", HindcastAsync)
        .WithSummary("What the clock would have said of a phase in past years, each without having seen it; ?leadDays= issues it so long before the usual date.");

    public static async Task<Results<Ok<HindcastAnswer>, ProblemHttpResult>> HindcastAsync(
        Guid id, string? species, string? phase, string? leadDays,
        Caller caller, GardenStore gardens, PlanInputStore inputs, IGardenWeather weather, CatalogContent catalog, IClock clock, CancellationToken cancel)
    {
        if (await gardens.FindAsync(caller.AccountId, id, cancel) is null)
            return Problems.NotFound();
        var faults = new FieldFaults();
        var kind = SpeciesOf(species, catalog, faults);
        var phases = kind?.Phases ?? GrowthPhase.All;
        var wanted = PhaseOf(phase, phases, faults);
        var lead = LeadOf(leadDays, faults);
        if (kind is null || wanted is null || faults.Any)
            return Problems.Invalid(faults);
        if (await inputs.ReadAsync(id, cancel) is not { } stored)
            return Problems.NotFound();
        if (wanted.Bbch == 0)
            return TypedResults.Ok(HindcastAnswer.Of([], "Dormancy is a state and has no date to forecast."));
        var zone = stored.Garden.TimeZone is null ? null : DateTimeZoneProviders.Tzdb.GetZoneOrNull(stored.Garden.TimeZone);
        var today = clock.GetCurrentInstant().InZone(zone ?? DateTimeZone.Utc).Date;
        var history = GardenDates.History(stored.Garden, (await weather.DaysAsync(id, cancel)).Days, today);
        var hindcast = new GardenHindcast(history, GardenDates.Of(stored, catalog), ClockRules.Developed, catalog.Kinship);
        return TypedResults.Ok(hindcast.Answer(new SeriesKey(GardenDates.Site, kind.BotanicalName, wanted.Id), lead));
    }

    private static Species? SpeciesOf(string? id, CatalogContent catalog, FieldFaults faults)
    {
        if (id is null)
            faults.Add("species", "species is missing: give ?species= with an id of the catalog.");
        else if (catalog.Species.TryGetValue(id, out var species))
            return species;
        else
            faults.Add("species", $"species is '{FieldValue.Shorten(id)}', which is not in the catalog: try {string.Join(", ", catalog.NearestSpecies(id))}.");
        return null;
    }

    private static GrowthPhase? PhaseOf(string? id, IReadOnlyList<GrowthPhase> known, FieldFaults faults)
    {
        if (id is null)
            faults.Add("phase", $"phase is missing: give ?phase= with one of {string.Join(", ", known.Select(phase => phase.Id))}.");
        else if (known.FirstOrDefault(phase => phase.Id == id) is { } phase)
            return phase;
        else
            faults.Add("phase", $"phase is '{FieldValue.Shorten(id)}', which is not known for this species: try {string.Join(", ", NearestIds.Of(id, known.Select(phase => phase.Id)))}.");
        return null;
    }

    private static int? LeadOf(string? text, FieldFaults faults)
    {
        if (text is null)
            return null;
        if (int.TryParse(text, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var days) && days <= LongestLeadDays)
            return days;
        faults.Add("leadDays", $"leadDays is '{FieldValue.Shorten(text)}': give a whole number of days from 0 to {LongestLeadDays}.");
        return null;
    }
}
