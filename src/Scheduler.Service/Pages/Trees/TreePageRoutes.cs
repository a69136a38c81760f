using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Today;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Trees;

/// <summary>The page of one tree, with its log.</summary>
public static class TreePageRoutes
{
    public static void MapTreePage(this RouteGroupBuilder mine)
    {
        mine.MapGet("/trees/{id:guid}", ShowAsync).Shrunk();
        mine.MapPost("/trees/{id:guid}/work", LogAsync);
        mine.MapPost("/trees/{id:guid}/done/{technique}", DoneAsync);
        mine.MapPost("/trees/{id:guid}/seen", NoteAsync);
        mine.MapPost("/trees/{id:guid}/remove/{kind}/{entryId:guid}", RemoveAsync);
        mine.MapPost("/trees/{id:guid}/let-go/{promiseId:guid}", LetGoAsync);
    }

    private static async Task<IResult> ShowAsync(
        Guid id, string? all, string? log, string? order, string? did, Guid? entry, string? doubt, PageContext page, TreeBuilder builder, CancellationToken cancel)
    {
        if (await builder.BuildAsync(page.Owner.AccountId, id, HistoryQuery.Of(log, order, all), null, null, cancel) is not { } view)
            return Missing();
        TodayNotice? notice = did switch
        {
            "work" => new(page["Did.Work", view.Tree.Name], $"/trees/{id}/remove/work/{entry}", false),
            "seen" => new(page["Did.Seen", view.Tree.Name], $"/trees/{id}/remove/seen/{entry}", doubt is not null),
            "undone" => new(page["Did.Undone"], null, false),
            _ => null
        };
        return Page<TreePage>(view with { Notice = notice });
    }

    private static async Task<IResult> LogAsync(Guid id, FormBody form, PageContext page, ApiCall api, TreeBuilder builder, CancellationToken cancel)
    {
        var json = form.Json(page.Locale.Culture).Text("date", "extent", "crownZone", "branch", "result", "notes").Number("minutes", "rootPercent", "livingTopPercent")
            .Flag("finished").Object;
        if (form["technique"] is { } chosen)
        {
            var parts = chosen.Split('/');
            json["technique"] = parts[0];
            if (parts.Length > 1)
                json["mode"] = parts[1];
        }
        var answer = await api.PostAsync("/trees/{id:guid}/work", json, form, id);
        return answer.IsTaken
            ? GoTo($"/trees/{id}?did=work&entry={answer.Id}")
            : await builder.BuildAsync(page.Owner.AccountId, id, HistoryQuery.Usual, FormState.Refused(form, answer), null, cancel) is { } view ? Page<TreePage>(view, answer.Status) : Missing();
    }

    // The button beside an answer that says to do it: today, without further words.
    private static async Task<IResult> DoneAsync(
        Guid id, string technique, FormBody form, PageContext page, ApiCall api, TreeStore trees, GardenStore gardens, IClock clock, CancellationToken cancel)
    {
        if (await trees.FindAsync(page.Owner.AccountId, id, cancel) is not { } stored
            || await gardens.FindAsync(page.Owner.AccountId, stored.GardenId, cancel) is not { } garden)
        {
            return Missing();
        }
        var date = LocalDatePattern.Iso.Format(garden.DateAt(clock.GetCurrentInstant()));
        var answer = await api.PostAsync("/trees/{id:guid}/work", new JsonObject { ["technique"] = technique, ["date"] = date, ["finished"] = true }, form, id);
        return answer.IsTaken ? GoTo($"/trees/{id}?did=work&entry={answer.Id}") : Missing();
    }

    private static async Task<IResult> NoteAsync(Guid id, FormBody form, PageContext page, ApiCall api, TreeBuilder builder, CancellationToken cancel)
    {
        var json = form.Json(page.Locale.Culture).Text("date", "phase", "crownZone", "branch", "soil", "strength", "notes").Number("leafCount", "density", "shootCm")
            .Flag("hardened", "leavesFullSize", "wireBiting", "pestSigns", "frostedLeaves", "waterStands", "rootsLift").Object;
        var answer = await api.PostAsync("/trees/{id:guid}/observations", json, form, id);
        if (answer.IsTaken)
        {
            var doubt = answer.Body!.Value.GetProperty("question").ValueKind == System.Text.Json.JsonValueKind.String ? "&doubt=1" : "";
            return GoTo($"/trees/{id}?did=seen&entry={answer.Id}{doubt}");
        }
        return await builder.BuildAsync(page.Owner.AccountId, id, HistoryQuery.Usual, null, FormState.Refused(form, answer), cancel) is { } view
            ? Page<TreePage>(view, answer.Status)
            : Missing();
    }

    // What is gone already was removed before: the second of two taps changes nothing.
    private static async Task<IResult> RemoveAsync(Guid id, string kind, Guid entryId, ApiCall api)
    {
        if (kind is not ("work" or "seen"))
            return Missing();
        await (kind == "work"
            ? api.DeleteAsync("/trees/{id:guid}/work/{workId:guid}", id, entryId)
            : api.DeleteAsync("/trees/{id:guid}/observations/{obsId:guid}", id, entryId));
        return GoTo($"/trees/{id}?did=undone");
    }

    private static async Task<IResult> LetGoAsync(Guid id, Guid promiseId, ApiCall api)
    {
        await api.DeleteAsync("/trees/{id:guid}/follow-ups/{followUpId:guid}", id, promiseId);
        return GoTo($"/trees/{id}#follow-ups");
    }
}
