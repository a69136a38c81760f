using System.Text.Json.Nodes;
using NodaTime.Text;
using Scheduler.Service.Gardens;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Today;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Plan;

/// <summary>The plan, its buttons, and the forms of the days it is made for.</summary>
public static class PlanRoutes
{
    public static void MapPlanPage(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/plan", ShowAsync);
        WindowTaps.Map(mine, "/plan");
        mine.MapPost("/plan/{gardenId:guid}/undo/{treeId:guid}/{id:guid}", UndoAsync);
        mine.MapPost("/plan/{gardenId:guid}/week", WeekAsync);
        mine.MapPost("/plan/{gardenId:guid}/away", (Guid gardenId, FormBody form, PageContext page, ApiCall api, PlanBuilder builder, GardenStore gardens, CancellationToken cancel) =>
            AddAsync(gardenId, isAway: true, form, page, api, builder, gardens, cancel));
        mine.MapPost("/plan/{gardenId:guid}/extra", (Guid gardenId, FormBody form, PageContext page, ApiCall api, PlanBuilder builder, GardenStore gardens, CancellationToken cancel) =>
            AddAsync(gardenId, isAway: false, form, page, api, builder, gardens, cancel));
        mine.MapPost("/plan/{gardenId:guid}/remove/{exception}", RemoveAsync);
    }

    private static async Task<IResult> ShowAsync(
        Guid? garden, string? tree, string? show, string? sort, string? did, Guid? of, Guid? id, PageContext page, PlanBuilder builder, TreeStore trees, CancellationToken cancel)
    {
        if (await builder.BuildAsync(page.Owner.AccountId, garden, PlanQuery.Of(tree, show, sort), cancel) is not { } view)
            return garden is null ? GoTo("/start") : Missing();
        var name = of is { } treeId && await trees.FindAsync(page.Owner.AccountId, treeId, cancel) is { } stored ? stored.Tree.Name : null;
        return Page<PlanPage>(view with
        {
            Notice = did switch
            {
                "work" when name is not null => new TodayNotice(page["Did.Work", name], $"/plan/{view.GardenId}/undo/{of}/{id}", false),
                "look" when name is not null => new TodayNotice(page["Did.Look", name], null, false),
                "undone" => new TodayNotice(page["Did.Undone"], null, false),
                "gone" => new TodayNotice(page["Did.Gone"], null, false),
                "days" => new TodayNotice(page["Plan.DaysSaved"], null, false),
                _ => null
            }
        });
    }

    // What is gone already was undone before: the second of two taps changes nothing.
    private static async Task<IResult> UndoAsync(Guid gardenId, Guid treeId, Guid id, ApiCall api)
    {
        await api.DeleteAsync("/trees/{id:guid}/work/{workId:guid}", treeId, id);
        return GoTo($"/plan?garden={gardenId}&did=undone");
    }

    private static async Task<IResult> WeekAsync(
        Guid gardenId, FormBody form, PageContext page, ApiCall api, PlanBuilder builder, CancellationToken cancel)
    {
        var asked = PlanBuilder.Weekdays.Where(day => form[day] is not null and not "0").ToList();
        var minutes = form.Json(page.Locale.Culture).Number([.. asked]).Object;
        var days = new JsonArray([.. asked.Select(day => (JsonNode)new JsonObject { ["day"] = day, ["minutes"] = minutes[day]!.DeepClone() })]);
        var answer = await api.PatchAsync("/gardens/{id:guid}", new JsonObject { ["workDays"] = days }, gardenId);
        return await ShownAsync(gardenId, answer, page, builder, cancel, view => view with
        {
            // The API counts the days that were sent; the form names them.
            Week = FormState.Refused(form, answer with
            {
                Faults = answer.Faults.GroupBy(fault => FieldOf(fault.Key, asked)).ToDictionary(same => same.Key, same => same.SelectMany(fault => fault.Value).ToArray())
            })
        });
    }

    private static string FieldOf(string path, List<string> asked)
    {
        var number = path.Split('[', ']') is [_, var text, ..] && int.TryParse(text, out var found) ? found : -1;
        return number >= 0 && number < asked.Count ? asked[number] : path;
    }

    private static async Task<IResult> AddAsync(
        Guid gardenId, bool isAway, FormBody form, PageContext page, ApiCall api, PlanBuilder builder, GardenStore gardens, CancellationToken cancel)
    {
        if (await gardens.FindAsync(page.Owner.AccountId, gardenId, cancel) is not { } garden)
            return Missing();
        var made = form.Json(page.Locale.Culture).Text("from", "to").Number("minutes").Object;
        if (isAway)
            made["minutes"] = 0;
        var all = Written(garden.Exceptions);
        all.Add((JsonNode)made);
        var answer = await api.PatchAsync("/gardens/{id:guid}", new JsonObject { ["exceptions"] = all }, gardenId);
        var named = answer with
        {
            Faults = answer.Faults.GroupBy(fault => fault.Key.Split('.')[^1]).ToDictionary(same => same.Key, same => same.SelectMany(fault => fault.Value).ToArray())
        };
        return await ShownAsync(gardenId, answer, page, builder, cancel, view =>
            isAway ? view with { Away = FormState.Refused(form, named) } : view with { Extra = FormState.Refused(form, named) });
    }

    private static async Task<IResult> RemoveAsync(
        Guid gardenId, string exception, PageContext page, ApiCall api, PlanBuilder builder, GardenStore gardens, CancellationToken cancel)
    {
        if (await gardens.FindAsync(page.Owner.AccountId, gardenId, cancel) is not { } garden)
            return Missing();
        var answer = await api.PatchAsync("/gardens/{id:guid}",
            new JsonObject { ["exceptions"] = Written(garden.Exceptions.Where(one => PlanBuilder.NameOf(one) != exception)) }, gardenId);
        return await ShownAsync(gardenId, answer, page, builder, cancel, view => view);
    }

    private static JsonArray Written(IEnumerable<DayException> exceptions) => new([.. exceptions.Select(one =>
    {
        var written = new JsonObject { ["from"] = LocalDatePattern.Iso.Format(one.From), ["minutes"] = one.Minutes };
        if (one.To is { } to)
            written["to"] = LocalDatePattern.Iso.Format(to);
        return (JsonNode)written;
    })]);

    private static async Task<IResult> ShownAsync(
        Guid gardenId, ApiAnswer answer, PageContext page, PlanBuilder builder, CancellationToken cancel, Func<PlanView, PlanView> refused)
    {
        if (answer.IsTaken)
            return GoTo($"/plan?garden={gardenId}&did=days");
        return await builder.BuildAsync(page.Owner.AccountId, gardenId, PlanQuery.Of(null, null, null), cancel) is { } view
            ? Page<PlanPage>(refused(view), answer.Status)
            : Missing();
    }
}
