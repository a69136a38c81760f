using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.Options;
using Scheduler.Service.Feeds;
using Scheduler.Service.Hosting;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Roads;

/// <summary>An owner's roads other than feeds: mail, push, webhook.</summary>
public static class RoadsApi
{
    private const string One = "/roads/{id:guid}";
    private const int MaxRoads = 20;

    public static void MapRoads(this IEndpointRouteBuilder routes)
    {
        var roads = routes.MapOwned("Roads");
        roads.MapPost("/roads", Create).Accepts<RoadRequest>("application/json").ProducesProblem(StatusCodes.Status409Conflict)
            .WithSummary("Makes a road. E-mail waits for its confirmation, a webhook for a test; its secret is shown once.");
        roads.MapGet("/roads", List).WithSummary("Lists the roads, oldest first.").Paged();
        roads.MapGet(One, Show).WithSummary("Shows a road: its state, what waits, what last arrived and what last went wrong.");
        roads.MapPatch(One, Change).Accepts<RoadRequest>("application/json").WithSummary("Changes a road; fields left out stay. A new end must be confirmed anew.");
        roads.MapDelete(One, Delete).WithSummary("Deletes a road with all it had to tell.");
        roads.MapPost(One + "/test", Test).WithSummary("Sends a test now, or to an address that has not confirmed the question again.");
        roads.MapPost(One + "/rotate", Rotate).ProducesProblem(StatusCodes.Status409Conflict).WithSummary("Gives a webhook a new secret, shown once; a test must follow.");
        routes.MapOpen("Roads").MapGet("/push/key", (PushKeys keys) => TypedResults.Ok(new PushKeyAnswer(keys.PublicKey)))
            .WithSummary("The key that browsers subscribe to.");
        routes.MapLinks();
    }

    private static async Task<Results<Created<RoadAnswer>, ProblemHttpResult>> Create(JsonBody body, Caller caller, RoadDesk desk, CancellationToken cancel)
    {
        var fields = body.Fields();
        var draft = await desk.ReadAsync(fields, null, caller, cancel);
        if (fields.Refusal() is { } refusal)
            return refusal;
        if (await desk.Store.CountAsync(caller.AccountId, cancel) >= MaxRoads)
            return Problems.Conflict($"There are {MaxRoads} roads already, the most an account can have. Delete one first.", new FaultKind("roads-full", $"{MaxRoads}"));
        if (!desk.Limits.MayTry(caller.AccountId))
            return Problems.Of(StatusCodes.Status429TooManyRequests);
        var (road, secret) = await desk.Keeper.CreateAsync(caller.AccountId, draft, cancel);
        return TypedResults.Created($"{Api.Root}/roads/{road.Id}", await desk.AnswerAsync(road, secret, cancel));
    }

    private static async Task<Ok<Page<RoadAnswer>>> List(PageRequest page, Caller caller, RoadDesk desk, CancellationToken cancel)
    {
        var roads = await desk.Store.ListAsync(caller.AccountId, page.After, page.Limit + 1, cancel);
        var pending = await desk.Store.PendingAsync(caller.AccountId, cancel);
        return TypedResults.Ok(page.Cut(roads, road => road.Id.ToString("N"), road => desk.Answer(road, pending, null)));
    }

    private static async Task<Results<Ok<RoadAnswer>, ProblemHttpResult>> Show(Guid id, Caller caller, RoadDesk desk, CancellationToken cancel) =>
        await desk.Store.FindAsync(caller.AccountId, id, cancel) is { } road ? TypedResults.Ok(await desk.AnswerAsync(road, null, cancel)) : Problems.NotFound();

    private static async Task<Results<Ok<RoadAnswer>, ProblemHttpResult>> Change(
        Guid id, JsonBody body, Caller caller, RoadDesk desk, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(caller.AccountId, id, cancel) is not { } road)
            return Problems.NotFound();
        var fields = body.Fields();
        var draft = await desk.ReadAsync(fields, road, caller, cancel);
        if (draft.On == true && road.State is RoadState.Unconfirmed or RoadState.Unsubscribed or RoadState.Gone)
            fields.Fault("on", $"cannot be set while the road is {Domain.Trees.Ids.Of(road.State)}: it comes into use with the mail's link, a test that arrives, or a new subscription.");
        if (fields.Refusal() is { } refusal)
            return refusal;
        if ((draft.Address ?? draft.Url) is not null && !desk.Limits.MayTry(caller.AccountId))
            return Problems.Of(StatusCodes.Status429TooManyRequests);
        var (changed, secret) = await desk.Keeper.ChangeAsync(road, draft, cancel);
        return TypedResults.Ok(await desk.AnswerAsync(changed, secret, cancel));
    }

    private static async Task<Results<NoContent, ProblemHttpResult>> Delete(Guid id, Caller caller, RoadDesk desk, CancellationToken cancel) =>
        await desk.Store.DeleteAsync(caller.AccountId, id, cancel) ? TypedResults.NoContent() : Problems.NotFound();

    private static async Task<Results<Ok<RoadTestAnswer>, ProblemHttpResult>> Test(Guid id, Caller caller, RoadDesk desk, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(caller.AccountId, id, cancel) is not { } road)
            return Problems.NotFound();
        if (!desk.Limits.MayTry(caller.AccountId))
            return Problems.Of(StatusCodes.Status429TooManyRequests);
        var carried = await desk.Keeper.TestAsync(road, cancel);
        var now = await desk.Store.FindAsync(caller.AccountId, id, cancel) ?? road;
        return TypedResults.Ok(new RoadTestAnswer(carried.Error is null, carried.Error?.Text, now.State));
    }

    private static async Task<Results<Ok<RoadAnswer>, ProblemHttpResult>> Rotate(Guid id, Caller caller, RoadDesk desk, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(caller.AccountId, id, cancel) is not { } road)
            return Problems.NotFound();
        if (desk.Seal.Open(road.TargetSealed) is not WebhookTarget target)
            return Problems.Conflict(road.Kind == RoadKind.Webhook ? "The keys that seal it are lost: give the url anew." : "Only a webhook has a secret.");
        var (rotated, secret) = await desk.Keeper.RotateAsync(road, target, cancel);
        return TypedResults.Ok(await desk.AnswerAsync(rotated, secret, cancel));
    }
}

/// <summary>What the handlers work with.</summary>
public sealed record RoadDesk(
    RoadStore Store, RoadKeeper Keeper, RoadSeal Seal, RoadLimits Limits, FeedStore Feeds, ITechniqueNames Techniques, IOptions<RoadsOptions> Options)
{
    public async Task<RoadAnswer> AnswerAsync(Road road, string? secret, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(road);
        return Answer(road, await Store.PendingAsync(road.AccountId, cancel), secret);
    }

    public RoadAnswer Answer(Road road, IReadOnlyDictionary<Guid, int> pending, string? secret)
    {
        ArgumentNullException.ThrowIfNull(road);
        return RoadAnswer.Of(road, Seal.Open(road.TargetSealed), pending.GetValueOrDefault(road.Id), secret);
    }

    internal async Task<RoadDraft> ReadAsync(FieldReader fields, Road? current, Caller caller, CancellationToken cancel) => RoadForm.Read(
        fields, current, new RoadReading(Techniques, await Feeds.GardensAsync(caller.AccountId, cancel), Options.Value.AllowLoopback));
}
