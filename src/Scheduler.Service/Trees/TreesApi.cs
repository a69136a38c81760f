using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Trees;

/// <summary>The owner's trees. A change is planned anew before it is answered, so windows and feeds follow at once.</summary>
public static class TreesApi
{
    public static void AddTrees(this WebApplicationBuilder builder)
    {
        builder.Services.AddSingleton<TreeStore>();
        builder.Services.AddSingleton<WorkStore>();
        builder.Services.AddSingleton<TreeFields>();
        builder.Services.AddSingleton<TreeHardiness>();
        builder.Services.AddSingleton<SettingFields>();
        builder.Services.AddSingleton<WorkFields>();
    }

    public static void MapTrees(this WebApplication app)
    {
        var mine = app.MapOwned("trees");
        mine.MapPost("/gardens/{id:guid}/trees", AddAsync).Accepts<TreeRequest>("application/json").WithSummary("Adds a tree to a garden.");
        mine.MapGet("/gardens/{id:guid}/trees", ListAsync).Paged().WithSummary("The trees of a garden.");
        mine.MapGet("/trees/{id:guid}", FindAsync).WithSummary("One tree.");
        mine.MapPatch("/trees/{id:guid}", ChangeAsync).Accepts<TreeRequest>("application/json")
            .WithSummary("Changes the fields that are given; windows and feeds follow at once.");
        mine.MapDelete("/trees/{id:guid}", DeleteAsync).WithSummary("Removes a tree with its log; its windows are withdrawn.");
        mine.MapWork();
        mine.MapObservations();
    }

    private static async Task<Results<Created<TreeAnswer>, ProblemHttpResult>> AddAsync(
        Guid id, JsonBody body, Caller caller, GardenStore gardens, TreeStore trees, TreeFields reader, TreeHardiness hardiness, GardenFollowers followers,
        IClock clock, CancellationToken cancel)
    {
        if (await gardens.FindAsync(caller.AccountId, id, cancel) is not { } garden)
            return Problems.NotFound();
        var fields = body.Fields();
        var now = clock.GetCurrentInstant();
        var tree = reader.Read(fields, null, garden.DateAt(now));
        if (fields.Refusal() is { } refusal)
            return refusal;
        var stored = new StoredTree(id, tree, now, now);
        await trees.AddAsync(stored, cancel);
        await followers.ReplanAsync(id);
        return TypedResults.Created($"{Api.Root}/trees/{tree.Id}", hardiness.Show(stored, await hardiness.ZoneAsync(garden, cancel)));
    }

    private static async Task<Results<Ok<Page<TreeAnswer>>, ProblemHttpResult>> ListAsync(
        Guid id, Caller caller, PageRequest page, GardenStore gardens, TreeStore trees, TreeHardiness hardiness, CancellationToken cancel)
    {
        if (await gardens.FindAsync(caller.AccountId, id, cancel) is not { } garden)
            return Problems.NotFound();
        var rows = await trees.OfGardenAsync(caller.AccountId, id, page.After, page.Limit + 1, cancel);
        var zone = await hardiness.ZoneAsync(garden, cancel);
        return TypedResults.Ok(page.Cut(rows, row => row.Tree.Id.ToString("N"), row => hardiness.Show(row, zone)));
    }

    private static async Task<Results<Ok<TreeAnswer>, ProblemHttpResult>> FindAsync(
        Guid id, Caller caller, GardenStore gardens, TreeStore trees, TreeHardiness hardiness, CancellationToken cancel) =>
        await trees.FindAsync(caller.AccountId, id, cancel) is { } stored && await gardens.FindAsync(caller.AccountId, stored.GardenId, cancel) is { } garden
            ? TypedResults.Ok(hardiness.Show(stored, await hardiness.ZoneAsync(garden, cancel)))
            : Problems.NotFound();

    private static async Task<Results<Ok<TreeAnswer>, ProblemHttpResult>> ChangeAsync(
        Guid id, JsonBody body, Caller caller, GardenStore gardens, TreeStore trees, TreeFields reader, TreeHardiness hardiness, GardenFollowers followers,
        IClock clock, CancellationToken cancel)
    {
        if (await trees.FindAsync(caller.AccountId, id, cancel) is not { } found
            || await gardens.FindAsync(caller.AccountId, found.GardenId, cancel) is not { } garden)
        {
            return Problems.NotFound();
        }
        ProblemHttpResult? refusal = null;
        var now = clock.GetCurrentInstant();
        var (before, after) = await trees.ChangeAsync(caller.AccountId, id, current =>
        {
            var fields = body.Fields();
            var changed = reader.Read(fields, current.Tree, garden.DateAt(now));
            refusal = fields.Refusal();
            return refusal is null ? current with { Tree = changed, ChangedAt = now } : null;
        }, cancel);
        if (before is null)
            return Problems.NotFound();
        if (after is null)
            return refusal!;
        await followers.ReplanAsync(after.GardenId);
        return TypedResults.Ok(hardiness.Show(after, await hardiness.ZoneAsync(garden, cancel)));
    }

    private static async Task<Results<NoContent, ProblemHttpResult>> DeleteAsync(
        Guid id, Caller caller, TreeStore trees, GardenFollowers followers, CancellationToken cancel)
    {
        if (await trees.FindAsync(caller.AccountId, id, cancel) is not { } stored)
            return Problems.NotFound();
        await trees.DeleteAsync(id, cancel);
        await followers.ReplanAsync(stored.GardenId);
        return TypedResults.NoContent();
    }
}
