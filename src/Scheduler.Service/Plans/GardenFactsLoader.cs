using NodaTime;
using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Weather;
using Scheduler.Service.Catalog;
using Scheduler.Service.Gardens;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Plans;

/// <summary>All facts of a garden on one day, ready for the rules.</summary>
public sealed record GardenPicture(
    Craft Craft, PlanInputs Inputs, GardenFacts Garden, SiteSeasons Seasons, IReadOnlyList<TreeFacts> Trees, SpeciesClock Clock, WeatherStatus Weather)
{
    public LocalDate Today => Garden.Today;
}

/// <summary>Gathers stored facts, weather and the growth clock into one picture of a garden.</summary>
public sealed class GardenFactsLoader(PlanInputStore inputs, IGardenWeather weather, SeasonCache seasons, CurrentCatalog catalog, IClock clock)
{
    private const int DaysBack = 21;

    public async Task<GardenPicture?> LoadAsync(Guid gardenId, CancellationToken cancel = default)
    {
        var content = catalog.Content;
        if ((await inputs.ReadAsync(gardenId, cancel))?.Under(content.Craft.Settings) is not { } stored)
            return null;
        var garden = stored.Garden;
        var zone = garden.TimeZone is null ? null : DateTimeZoneProviders.Tzdb.GetZoneOrNull(garden.TimeZone);
        var now = clock.GetCurrentInstant().InZone(zone ?? DateTimeZone.Utc);
        var today = now.Date;
        var known = await weather.DaysAsync(gardenId, cancel);
        var site = new SiteWeather(garden.Latitude, today, Series(known.Days).ShiftedBy(garden.TemperatureOffsetC ?? 0));
        var both = seasons.Of(gardenId, site);
        var species = new SpeciesClock(content, both, stored);
        return new GardenPicture(
            content.Craft, stored, Facts(stored, known.Days, today) with { NightIsOn = now.Hour < content.Craft.Thresholds.NightEndsHour.Value }, both,
            [.. stored.Trees.Select(tree => species.FactsOf(tree))], species, known.Status);
    }

    private static TemperatureSeries Series(IReadOnlyList<DayWeather> days) =>
        TemperatureSeries.From(days.Select(day => new DailyTemperature(day.Date, day.MinC, day.MaxC)));

    private static GardenFacts Facts(PlanInputs stored, IReadOnlyList<DayWeather> days, LocalDate today)
    {
        var bench = stored.Bench.Where(fact => fact.Date <= today && fact.Date >= today.PlusDays(-1)).OrderBy(fact => fact.Date).ToList();
        return new GardenFacts
        {
            Today = today,
            Latitude = stored.Garden.Latitude,
            Days = [.. days.Where(day => day.Date >= today.PlusDays(-DaysBack))],
            BenchOffsetC = stored.Garden.TemperatureOffsetC,
            CautiousFirstFrost = stored.Garden.FirstFrostChoice == "cautious",
            WaterAssured = stored.Garden.WaterAssured,
            FrostFreeShelter = stored.Garden.FrostFreeShelter ?? false,
            SoilDry = Last(bench, fact => fact.SoilDry),
            WoodFrozen = Last(bench, fact => fact.WoodFrozen),
            RootBallC = Last(bench, fact => fact.RootBallC),
            RoomMinC = Last(bench, fact => fact.RoomMinC),
            RoomMaxC = Last(bench, fact => fact.RoomMaxC),
            Zone = HardinessZone.TryParse(stored.Garden.HardinessZone ?? GardenAnswers.ZoneOf(days, Hemisphere.OfLatitude(stored.Garden.Latitude)), out var zone) ? zone : null
        };
    }

    private static T? Last<T>(List<BenchFacts> bench, Func<BenchFacts, T?> fact) where T : struct =>
        bench.Select(fact).LastOrDefault(value => value is not null);
}
