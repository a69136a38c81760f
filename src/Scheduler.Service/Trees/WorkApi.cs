using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Trees;

/// <summary>Work done on a tree.</summary>
public static class WorkApi
{
    public static void MapWork(this RouteGroupBuilder mine)
    {
        mine.MapPost("/trees/{id:guid}/work", AddAsync).Accepts<WorkRequest>("application/json").WithSummary("Logs work done; windows and feeds follow at once.");
        mine.MapGet("/trees/{id:guid}/work", ListAsync).Paged().WithSummary("Work done on a tree, oldest first.");
        mine.MapGet("/trees/{id:guid}/work/{workId:guid}", FindAsync).WithSummary("One work record.");
        mine.MapDelete("/trees/{id:guid}/work/{workId:guid}", DeleteAsync).WithSummary("Removes a work record logged by mistake.");
    }

    private static async Task<Results<Created<LoggedWork>, ProblemHttpResult>> AddAsync(
        Guid id, JsonBody body, Caller caller, GardenStore gardens, TreeStore trees, WorkStore log, WorkFields reader, GardenFollowers followers,
        IWorkPromises promises, IClock clock, CancellationToken cancel)
    {
        if (await trees.FindAsync(caller.AccountId, id, cancel) is not { } tree
            || await gardens.FindAsync(caller.AccountId, tree.GardenId, cancel) is not { } garden)
        {
            return Problems.NotFound();
        }
        var fields = body.Fields();
        var now = clock.GetCurrentInstant();
        var work = reader.Read(fields, garden.DateAt(now));
        if (fields.Refusal() is { } refusal)
            return refusal;
        await log.AddAsync(new StoredWork(work.Id, id, work.Date, Json.Write(work), now), cancel);
        await followers.ReplanAsync(tree.GardenId);
        return TypedResults.Created($"{Api.Root}/trees/{id}/work/{work.Id}", new LoggedWork(work) { FollowUps = await promises.OfWorkAsync(tree, work.Id, cancel) });
    }

    private static async Task<Results<Ok<Page<WorkRecord>>, ProblemHttpResult>> ListAsync(
        Guid id, Caller caller, PageRequest page, TreeStore trees, WorkStore log, CancellationToken cancel)
    {
        if (await trees.FindAsync(caller.AccountId, id, cancel) is null)
            return Problems.NotFound();
        var rows = await log.OfTreeAsync(id, page.After, page.Limit + 1, cancel);
        return TypedResults.Ok(page.Cut(rows, row => row.Cursor, row => Json.Read<WorkRecord>(row.Body)));
    }

    private static async Task<Results<Ok<WorkRecord>, ProblemHttpResult>> FindAsync(
        Guid id, Guid workId, Caller caller, WorkStore log, CancellationToken cancel) =>
        await log.FindAsync(caller.AccountId, id, workId, cancel) is { } row ? TypedResults.Ok(Json.Read<WorkRecord>(row.Body)) : Problems.NotFound();

    private static async Task<Results<NoContent, ProblemHttpResult>> DeleteAsync(
        Guid id, Guid workId, Caller caller, TreeStore trees, WorkStore log, GardenFollowers followers, CancellationToken cancel)
    {
        if (await trees.FindAsync(caller.AccountId, id, cancel) is not { } tree || await log.FindAsync(caller.AccountId, id, workId, cancel) is null)
            return Problems.NotFound();
        await log.DeleteAsync(workId, cancel);
        await followers.ReplanAsync(tree.GardenId);
        return TypedResults.NoContent();
    }
}
