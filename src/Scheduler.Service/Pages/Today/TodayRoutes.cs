using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Phenology;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Today;

/// <summary>The page of the day, and its buttons. Each button is a form of its own address; afterwards the page says what was done and offers to undo it.</summary>
public static class TodayRoutes
{
    public static void MapToday(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/today", ShowAsync).Shrunk();
        WindowTaps.Map(mine, "/today");
        mine.MapPost("/today/{gardenId:guid}/seen/{treeId:guid}/{phase}", SeenAsync);
        mine.MapPost("/today/{gardenId:guid}/undo/{kind}/{treeId:guid}/{id:guid}", UndoAsync);
    }

    private static async Task<IResult> ShowAsync(
        Guid? garden, string? did, Guid? of, Guid? id, string? doubt, PageContext page, TodayBuilder builder, TreeStore trees, CancellationToken cancel)
    {
        if (await builder.BuildAsync(page.Owner.AccountId, garden, cancel) is not { } view)
            return garden is null ? GoTo("/start") : Missing();
        var notice = did is null ? null : await NoticeAsync(did, view.GardenId, of, id, doubt is not null, page, trees, cancel);
        return Page<TodayPage>(view with { Notice = notice });
    }

    private static async Task<TodayNotice?> NoticeAsync(
        string did, Guid gardenId, Guid? treeId, Guid? id, bool isDoubtful, PageContext page, TreeStore trees, CancellationToken cancel)
    {
        var name = treeId is { } known && await trees.FindAsync(page.Owner.AccountId, known, cancel) is { } stored ? stored.Tree.Name : null;
        return did switch
        {
            "work" when name is not null => new(page["Did.Work", name], $"/today/{gardenId}/undo/work/{treeId}/{id}", false),
            "seen" when name is not null => new(page["Did.Seen", name], $"/today/{gardenId}/undo/seen/{treeId}/{id}", isDoubtful),
            "look" when name is not null => new(page["Did.Look", name], null, false),
            "undone" => new(page["Did.Undone"], null, false),
            "gone" => new(page["Did.Gone"], null, false),
            _ => null
        };
    }

    private static async Task<IResult> SeenAsync(
        Guid gardenId, Guid treeId, string phase, FormBody form, PageContext page, ApiCall api, GardenStore gardens, IClock clock, CancellationToken cancel)
    {
        if (await gardens.FindAsync(page.Owner.AccountId, gardenId, cancel) is not { } garden || GrowthPhase.Find(phase) is null)
            return Missing();
        var body = new JsonObject { ["phase"] = phase, ["date"] = LocalDatePattern.Iso.Format(TapDay.Of(form, garden.DateAt(clock.GetCurrentInstant()))) };
        var answer = await api.PostAsync("/trees/{id:guid}/observations", body, form, treeId);
        if (!answer.IsTaken)
            return GoTo($"/today?garden={gardenId}&did=gone");
        var doubt = answer.Body!.Value.GetProperty("question").ValueKind == System.Text.Json.JsonValueKind.String ? "&doubt=1" : "";
        return GoTo($"/today?garden={gardenId}&did=seen&of={treeId}&id={answer.Id}{doubt}");
    }

    // What is gone already was undone before: the second of two taps changes nothing.
    private static async Task<IResult> UndoAsync(Guid gardenId, string kind, Guid treeId, Guid id, ApiCall api)
    {
        if (kind is not ("work" or "seen"))
            return Missing();
        await (kind == "work"
            ? api.DeleteAsync("/trees/{id:guid}/work/{workId:guid}", treeId, id)
            : api.DeleteAsync("/trees/{id:guid}/observations/{obsId:guid}", treeId, id));
        return GoTo($"/today?garden={gardenId}&did=undone");
    }
}
