using NodaTime;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Service.Catalog;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hindcast;
using Scheduler.Service.Pages.LongWork;
using Scheduler.Service.Pages.Today;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Pages.Clock;

/// <summary>Dates a garden's own years again, as long work, and gathers what came out.</summary>
public sealed class ClockBuilder(
    GardenStore gardens, PlanInputStore inputs, IGardenWeather weather, TodayPictures pictures, CurrentCatalog catalog, LongWorks works, IClock clock)
{
    /// <summary>Null: the owner has no garden, or none of this id.</summary>
    public async Task<ClockView?> BuildAsync(Guid accountId, Guid? gardenId, ClockQuery query, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(query);
        var all = (await gardens.ListAsync(accountId, "", int.MaxValue, cancel)).OrderBy(one => one.CreatedAt).ToList();
        if ((gardenId is null ? all.FirstOrDefault() : all.Find(one => one.Id == gardenId)) is not { } garden)
            return null;
        var today = garden.DateAt(clock.GetCurrentInstant());
        if (await pictures.OfAsync(garden.Id, today, cancel) is not { } picture || await inputs.ReadAsync(garden.Id, cancel) is not { } stored)
            return null;
        var work = works.Find(new LongWorkKey(accountId, garden.Id, query.Question))?.State;
        var results = work?.Result as IReadOnlyList<SeriesResult> ?? [];
        return new ClockView(
            garden.Id, [.. all.Select(one => (one.Id, one.Name))], today, TodayBuilder.ZoneOf(garden), query, GardenDates.Of(stored, catalog.Content).Count, work,
            work is { IsRunning: false } && work.Print != await pictures.PrintAsync(garden.Id, cancel), Sorted(results, query),
            [.. results.Select(one => (one.SpeciesId, one.SpeciesName)).Distinct()], picture.Weather);
    }

    public async Task StartAsync(Guid accountId, Garden garden, ClockQuery query, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(garden);
        ArgumentNullException.ThrowIfNull(query);
        works.Start(
            new LongWorkKey(accountId, garden.Id, query.Question), await pictures.PrintAsync(garden.Id, cancel) ?? "",
            (work, stopping) => WorkAsync(garden, query.LeadDays, work, stopping));
    }

    private async Task<object> WorkAsync(Garden garden, int? leadDays, LongWork.LongWork work, CancellationToken stopping)
    {
        var content = catalog.Content;
        if (await inputs.ReadAsync(garden.Id, stopping) is not { } stored)
            return Array.Empty<SeriesResult>();
        var history = GardenDates.History(stored.Garden, (await weather.DaysAsync(garden.Id, stopping)).Days, garden.DateAt(clock.GetCurrentInstant()));
        var dates = GardenDates.Of(stored, content);
        var hindcast = new GardenHindcast(history, dates, ClockRules.Developed, content.Kinship);
        var series = dates.Select(date => date.Series).Distinct().ToList();
        work.Expect(series.Count);
        var results = new List<SeriesResult>();
        foreach (var one in series)
        {
            stopping.ThrowIfCancellationRequested();
            var species = content.Species.Values.First(kind => kind.BotanicalName == one.Kind);
            results.Add(new SeriesResult(species.Id, species.CommonName, one.Phase, hindcast.Answer(one, leadDays)));
            work.Step();
        }
        return results;
    }

    private static IReadOnlyList<SeriesResult> Sorted(IReadOnlyList<SeriesResult> results, ClockQuery query)
    {
        var fitting = results.Where(one => query.Species is null || one.SpeciesId == query.Species);
        return query.Sort == "error"
            ? [.. fitting.OrderByDescending(one => one.Answer.MaeDays ?? double.NegativeInfinity)]
            : [.. fitting.OrderBy(one => one.SpeciesName, StringComparer.OrdinalIgnoreCase).ThenBy(one => one.Answer.Years[0].Observed.DayOfYear)];
    }
}
