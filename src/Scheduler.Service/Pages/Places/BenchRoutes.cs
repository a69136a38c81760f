using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Gardens;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Places;

/// <summary>What was seen at the benches: dry root balls, frozen wood, the winter room.</summary>
internal static class BenchRoutes
{
    private const string Path = "/gardens/{id:guid}/bench";
    private const int Most = 10_000;
    private const int MostShown = 60;

    public static void MapBenchPages(this IEndpointRouteBuilder mine)
    {
        mine.MapGet(Path, async (Guid id, string? did, PageContext page, GardenStore gardens, ObservationStore seen, IClock clock, CancellationToken cancel) =>
            await ViewAsync(id, null, did, page, gardens, seen, clock, cancel) is { } view ? Page<BenchPage>(view) : Missing());
        mine.MapPost(Path, AddAsync);
        mine.MapPost(Path + "/{obsId:guid}/delete", async (Guid id, Guid obsId, ApiCall api) =>
        {
            await api.DeleteAsync("/gardens/{id:guid}/observations/{obsId:guid}", id, obsId);
            return GoTo($"/gardens/{id}/bench?did=deleted");
        });
    }

    private static async Task<IResult> AddAsync(
        Guid id, FormBody form, PageContext page, ApiCall api, GardenStore gardens, ObservationStore seen, IClock clock, CancellationToken cancel)
    {
        var locale = page.Locale;
        var json = form.Json(locale.Culture).Text("date", "notes").Flag("soilDry", "woodFrozen").Number("rootBallC", "roomMinC", "roomMaxC").Object
            .TemperatureToApi(locale, "rootBallC").TemperatureToApi(locale, "roomMinC").TemperatureToApi(locale, "roomMaxC");
        var answer = await api.PostAsync("/gardens/{id:guid}/observations", json, form, id);
        if (answer.IsTaken)
            return GoTo($"/gardens/{id}/bench?did=added");
        return await ViewAsync(id, FormState.Refused(form, answer), null, page, gardens, seen, clock, cancel) is { } view
            ? Page<BenchPage>(view, answer.Status)
            : Missing();
    }

    private static async Task<BenchView?> ViewAsync(
        Guid id, FormState? form, string? did, PageContext page, GardenStore gardens, ObservationStore seen, IClock clock, CancellationToken cancel)
    {
        if (await gardens.FindAsync(page.Owner.AccountId, id, cancel) is not { } garden)
            return null;
        var today = garden.DateAt(clock.GetCurrentInstant());
        var rows = await seen.OfBenchesAsync(id, "", Most, cancel);
        return new BenchView(
            id, garden.Name, today, [.. rows.Select(row => Json.Read<BenchObservation>(row.Body)).Reverse().Take(MostShown)],
            form ?? FormState.With(("date", LocalDatePattern.Iso.Format(today))),
            did switch { "added" => page["Gardens.BenchAdded"], "deleted" => page["Gardens.BenchDeleted"], _ => null });
    }
}
