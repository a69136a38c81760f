using Microsoft.AspNetCore.Http.HttpResults;
using Scheduler.Service.Hosting;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Feeds;

/// <summary>An owner's feeds: making them, changing them, taking them back.</summary>
public static class FeedsApi
{
    private const string One = "/feeds/{id:guid}";

    public static void MapFeeds(this IEndpointRouteBuilder routes)
    {
        var feeds = routes.MapOwned("Feeds");
        feeds.MapPost("/feeds", Create).Accepts<FeedRequest>("application/json").WithSummary("Makes a feed and its secret address.");
        feeds.MapGet("/feeds", List).WithSummary("Lists the feeds, oldest first.").Paged();
        feeds.MapGet(One, Show).WithSummary("Shows a feed, its address, when and by what kind of calendar app it was last fetched, and what each kind does with reminders.");
        feeds.MapPatch(One, Change).Accepts<FeedRequest>("application/json").WithSummary("Changes a feed; fields left out stay.");
        feeds.MapDelete(One, Delete).WithSummary("Deletes a feed; its address is unknown at once.");
        feeds.MapPost(One + "/rotate", Rotate).WithSummary("Gives a feed a new address; the old one is unknown at once.");
        routes.MapCalendars();
    }

    private static async Task<Results<Created<FeedAnswer>, ProblemHttpResult>> Create(
        JsonBody body, Caller caller, FeedDesk desk, HttpRequest request, CancellationToken cancel)
    {
        var fields = body.Fields();
        var settings = await desk.ReadAsync(fields, null, caller, cancel);
        if (fields.Refusal() is { } refusal)
            return refusal;
        var feed = await desk.Keeper.CreateAsync(caller.AccountId, settings, cancel);
        return TypedResults.Created($"{Api.Root}/feeds/{feed.Id}", desk.Answer(feed, request));
    }

    private static async Task<Ok<Page<FeedAnswer>>> List(PageRequest page, Caller caller, FeedDesk desk, HttpRequest request, CancellationToken cancel)
    {
        var after = Guid.TryParse(page.After, out var id) ? id : (Guid?)null;
        var feeds = await desk.Store.ListAsync(caller.AccountId, after, page.Limit + 1, cancel);
        return TypedResults.Ok(page.Cut(feeds, feed => feed.Id.ToString("N"), feed => desk.Answer(feed, request) with { CalendarApps = null }));
    }

    private static async Task<Results<Ok<FeedAnswer>, ProblemHttpResult>> Show(
        Guid id, Caller caller, FeedDesk desk, HttpRequest request, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(caller.AccountId, id, cancel) is not { } feed)
            return Problems.NotFound();
        return TypedResults.Ok(desk.Answer(feed, request));
    }

    private static async Task<Results<Ok<FeedAnswer>, ProblemHttpResult>> Change(
        Guid id, JsonBody body, Caller caller, FeedDesk desk, HttpRequest request, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(caller.AccountId, id, cancel) is not { } feed)
            return Problems.NotFound();
        var fields = body.Fields();
        var settings = await desk.ReadAsync(fields, feed.Settings, caller, cancel);
        if (fields.Refusal() is { } refusal)
            return refusal;
        return TypedResults.Ok(desk.Answer(await desk.Keeper.ChangeAsync(feed, settings, cancel), request));
    }

    private static async Task<Results<NoContent, ProblemHttpResult>> Delete(Guid id, Caller caller, FeedDesk desk, CancellationToken cancel) =>
        await desk.Store.DeleteAsync(caller.AccountId, id, cancel) ? TypedResults.NoContent() : Problems.NotFound();

    private static async Task<Results<Ok<FeedAnswer>, ProblemHttpResult>> Rotate(
        Guid id, Caller caller, FeedDesk desk, HttpRequest request, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(caller.AccountId, id, cancel) is not { } feed)
            return Problems.NotFound();
        return TypedResults.Ok(desk.Answer(await desk.Keeper.RotateAsync(feed, cancel), request));
    }
}

/// <summary>What the handlers work with.</summary>
public sealed record FeedDesk(FeedStore Store, FeedKeeper Keeper, FeedAddresses Addresses, ITechniqueNames Techniques)
{
    public FeedAnswer Answer(Feed feed, HttpRequest request) => FeedAnswer.Of(feed, Addresses.Of(feed, request));

    public async Task<FeedSettings> ReadAsync(FieldReader fields, FeedSettings? current, Caller caller, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(caller);
        return FeedForm.Read(fields, current, Techniques, await Store.GardensAsync(caller.AccountId, cancel));
    }
}
