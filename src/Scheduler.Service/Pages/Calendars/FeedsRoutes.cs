using System.Text.Json.Nodes;
using Scheduler.Service.Feeds;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Layout;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Calendars;

/// <summary>Feeds as pages: the list, one with its address, and its form. A new address and a deletion ask once more.</summary>
public static class FeedsRoutes
{
    private const string One = "/feeds/{id:guid}";

    public static void MapFeedPages(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/feeds", async (string? did, string? q, string? sort, HttpRequest request, PageContext page, FeedPages pages, CancellationToken cancel) =>
            Page<FeedsPage>(await pages.ListAsync(ListQuery.Of(q, sort, FeedPages.Sorts), request, did == "deleted" ? page["Feeds.Deleted"] : null, cancel)));
        mine.MapGet("/feeds/new", async (FeedPages pages, CancellationToken cancel) => Page<FeedFormPage>(await pages.FormAsync(null, null, cancel)));
        mine.MapPost("/feeds/new", AddAsync);
        mine.MapGet(One, ShowAsync);
        mine.MapGet(One + "/edit", async (Guid id, FeedPages pages, CancellationToken cancel) =>
            await pages.FormAsync(id, null, cancel) is { } view ? Page<FeedFormPage>(view) : Missing());
        mine.MapPost(One + "/edit", ChangeAsync);
        mine.MapGet(One + "/rotate", (Guid id, PageContext page, FeedDesk desk, CancellationToken cancel) => AskAsync(id, "Rotate", page, desk, cancel));
        mine.MapPost(One + "/rotate", RotateAsync);
        mine.MapGet(One + "/delete", (Guid id, PageContext page, FeedDesk desk, CancellationToken cancel) => AskAsync(id, "Delete", page, desk, cancel));
        mine.MapPost(One + "/delete", DeleteAsync);
    }

    private static async Task<IResult> ShowAsync(Guid id, string? did, HttpRequest request, PageContext page, FeedPages pages, CancellationToken cancel)
    {
        var notice = did switch { "made" => page["Feeds.Made"], "changed" => page["Feeds.Changed"], "rotated" => page["Feeds.Rotated"], _ => null };
        return await pages.ShowAsync(id, request, notice, cancel) is { } view ? Page<FeedPage>(view) : Missing();
    }

    private static async Task<IResult> AddAsync(FormBody form, PageContext page, ApiCall api, FeedPages pages, CancellationToken cancel)
    {
        var answer = await api.PostAsync("/feeds", Asked(form, page), form);
        return answer.IsTaken
            ? GoTo($"/feeds/{answer.Id}?did=made")
            : Page<FeedFormPage>(await pages.FormAsync(null, FormState.Refused(form, answer), cancel), answer.Status);
    }

    private static async Task<IResult> ChangeAsync(Guid id, FormBody form, PageContext page, ApiCall api, FeedPages pages, CancellationToken cancel)
    {
        var answer = await api.PatchAsync("/feeds/{id:guid}", Asked(form, page), id);
        if (answer.IsTaken)
            return GoTo($"/feeds/{id}?did=changed");
        return await pages.FormAsync(id, FormState.Refused(form, answer), cancel) is { } view ? Page<FeedFormPage>(view, answer.Status) : Missing();
    }

    private static async Task<IResult> RotateAsync(Guid id, FormBody form, ApiCall api)
    {
        // Sent twice, it gives one new address, not two.
        var answer = await api.PostAsync("/feeds/{id:guid}/rotate", [], form, id);
        return answer.IsTaken ? GoTo($"/feeds/{id}?did=rotated") : Missing();
    }

    private static async Task<IResult> DeleteAsync(Guid id, ApiCall api)
    {
        await api.DeleteAsync("/feeds/{id:guid}", id);
        return GoTo("/feeds?did=deleted");
    }

    private static async Task<IResult> AskAsync(Guid id, string what, PageContext page, FeedDesk desk, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(page.Owner.AccountId, id, cancel) is not { } feed)
            return Missing();
        var (title, text, button) = what == "Rotate"
            ? (page["Feeds.RotateTitle", feed.Settings.Name], page["Feeds.RotateText"], page["Feeds.Rotate"])
            : (page["Feeds.DeleteTitle", feed.Settings.Name], page["Feeds.DeleteText"], page["Feeds.Delete"]);
        return Page<ConfirmPage>(new Confirmation(title, text, button, $"/feeds/{id}/{what.ToLowerInvariant()}", $"/feeds/{id}"));
    }

    // Nothing ticked means all, also what is added later; for reminders it means none.
    private static JsonObject Asked(FormBody form, PageContext page)
    {
        var json = form.Json(page.Locale.Culture, blankClears: true).Text("name", "content", "gathered", "span", "at").List("gardenIds").List("techniques").List("reminders").Object;
        foreach (var name in new[] { "gardenIds", "techniques" })
        {
            if (json[name] is JsonArray { Count: 0 })
                json[name] = null;
        }
        return json;
    }
}
