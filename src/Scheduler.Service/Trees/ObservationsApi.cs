using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Trees;

/// <summary>What the owner saw on a tree.</summary>
public static class ObservationsApi
{
    public static void MapObservations(this RouteGroupBuilder mine)
    {
        mine.MapPost("/trees/{id:guid}/observations", AddAsync).Accepts<ObservationRequest>("application/json")
            .WithSummary("Logs what was seen; the growth clock, windows and feeds follow at once. A date that can hardly be is kept and questioned.");
        mine.MapGet("/trees/{id:guid}/observations", ListAsync).Paged().WithSummary("What was seen on a tree, oldest first.");
        mine.MapGet("/trees/{id:guid}/observations/{obsId:guid}", FindAsync).WithSummary("One observation.");
        mine.MapDelete("/trees/{id:guid}/observations/{obsId:guid}", DeleteAsync).WithSummary("Removes an observation logged by mistake.");
    }

    private static async Task<Results<Created<ObservationAnswer>, ProblemHttpResult>> AddAsync(
        Guid id, JsonBody body, Caller caller, GardenStore gardens, TreeStore trees, ObservationStore observations, IObservationJudge judge,
        GardenFollowers followers, IClock clock, CancellationToken cancel)
    {
        if (await trees.FindAsync(caller.AccountId, id, cancel) is not { } tree
            || await gardens.FindAsync(caller.AccountId, tree.GardenId, cancel) is not { } garden)
        {
            return Problems.NotFound();
        }
        var fields = body.Fields();
        var now = clock.GetCurrentInstant();
        var seen = ObservationFields.Read(fields, garden.DateAt(now));
        if (fields.Refusal() is { } refusal)
            return refusal;
        var question = await judge.QuestionAsync(tree, seen, cancel);
        await observations.AddAsync(new StoredObservation(seen.Id, tree.GardenId, id, seen.Date, Json.Write(seen), now), cancel);
        await followers.ReplanAsync(tree.GardenId);
        return TypedResults.Created($"{Api.Root}/trees/{id}/observations/{seen.Id}", new ObservationAnswer(seen, question));
    }

    private static async Task<Results<Ok<Page<Observation>>, ProblemHttpResult>> ListAsync(
        Guid id, Caller caller, PageRequest page, TreeStore trees, ObservationStore observations, CancellationToken cancel)
    {
        if (await trees.FindAsync(caller.AccountId, id, cancel) is null)
            return Problems.NotFound();
        var rows = await observations.OfTreeAsync(id, page.After, page.Limit + 1, cancel);
        return TypedResults.Ok(page.Cut(rows, row => row.Cursor, row => Json.Read<Observation>(row.Body)));
    }

    private static async Task<Results<Ok<Observation>, ProblemHttpResult>> FindAsync(
        Guid id, Guid obsId, Caller caller, ObservationStore observations, CancellationToken cancel) =>
        await observations.FindOfTreeAsync(caller.AccountId, id, obsId, cancel) is { } row
            ? TypedResults.Ok(Json.Read<Observation>(row.Body))
            : Problems.NotFound();

    private static async Task<Results<NoContent, ProblemHttpResult>> DeleteAsync(
        Guid id, Guid obsId, Caller caller, ObservationStore observations, GardenFollowers followers, CancellationToken cancel)
    {
        if (await observations.FindOfTreeAsync(caller.AccountId, id, obsId, cancel) is not { } row)
            return Problems.NotFound();
        await observations.DeleteAsync(obsId, cancel);
        await followers.ReplanAsync(row.GardenId);
        return TypedResults.NoContent();
    }
}
