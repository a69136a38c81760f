using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Gardens;

/// <summary>Bench facts of a day, as observations of the garden.</summary>
public static class BenchApi
{
    public static void MapBench(this RouteGroupBuilder mine)
    {
        mine.MapPost("/gardens/{id:guid}/observations", AddAsync).Accepts<BenchObservationRequest>("application/json")
            .WithSummary("Logs what was seen at the benches.");
        mine.MapGet("/gardens/{id:guid}/observations", ListAsync).Paged().WithSummary("What was seen at the benches, oldest first.");
        mine.MapGet("/gardens/{id:guid}/observations/{obsId:guid}", FindAsync).WithSummary("One observation of the benches.");
        mine.MapDelete("/gardens/{id:guid}/observations/{obsId:guid}", DeleteAsync).WithSummary("Removes an observation of the benches.");
    }

    private static async Task<Results<Created<BenchObservation>, ProblemHttpResult>> AddAsync(
        Guid id, JsonBody body, Caller caller, GardenStore gardens, ObservationStore observations, GardenFollowers followers, IClock clock,
        CancellationToken cancel)
    {
        if (await gardens.FindAsync(caller.AccountId, id, cancel) is not { } garden)
            return Problems.NotFound();
        var fields = body.Fields();
        var now = clock.GetCurrentInstant();
        var seen = BenchObservation.Read(fields, garden.DateAt(now));
        if (fields.Refusal() is { } refusal)
            return refusal;
        await observations.AddAsync(new StoredObservation(seen.Id, id, null, seen.Date, Json.Write(seen), now), cancel);
        await followers.ReplanAsync(id);
        return TypedResults.Created($"{Api.Root}/gardens/{id}/observations/{seen.Id}", seen);
    }

    private static async Task<Results<Ok<Page<BenchObservation>>, ProblemHttpResult>> ListAsync(
        Guid id, Caller caller, PageRequest page, GardenStore gardens, ObservationStore observations, CancellationToken cancel)
    {
        if (await gardens.FindAsync(caller.AccountId, id, cancel) is null)
            return Problems.NotFound();
        var rows = await observations.OfBenchesAsync(id, page.After, page.Limit + 1, cancel);
        return TypedResults.Ok(page.Cut(rows, row => row.Cursor, row => Json.Read<BenchObservation>(row.Body)));
    }

    private static async Task<Results<Ok<BenchObservation>, ProblemHttpResult>> FindAsync(
        Guid id, Guid obsId, Caller caller, ObservationStore observations, CancellationToken cancel) =>
        await observations.FindOfBenchesAsync(caller.AccountId, id, obsId, cancel) is { } row
            ? TypedResults.Ok(Json.Read<BenchObservation>(row.Body))
            : Problems.NotFound();

    private static async Task<Results<NoContent, ProblemHttpResult>> DeleteAsync(
        Guid id, Guid obsId, Caller caller, ObservationStore observations, GardenFollowers followers, CancellationToken cancel)
    {
        if (await observations.FindOfBenchesAsync(caller.AccountId, id, obsId, cancel) is null)
            return Problems.NotFound();
        await observations.DeleteAsync(obsId, cancel);
        await followers.ReplanAsync(id);
        return TypedResults.NoContent();
    }
}
