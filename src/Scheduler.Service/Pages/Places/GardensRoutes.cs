using Scheduler.Service.Gardens;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Layout;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Places;

/// <summary>Gardens and their settings as pages.</summary>
public static class GardensRoutes
{
    private const int Most = 500;
    private const string One = "/gardens/{id:guid}";

    public static void MapGardenPages(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/gardens", ListAsync);
        mine.MapGet(One, ShowAsync);
        mine.MapPost(One, ChangeAsync);
        mine.MapGet(One + "/delete", AskAsync);
        mine.MapPost(One + "/delete", DeleteAsync);
        mine.MapReadingPages();
        mine.MapBenchPages();
    }

    private static async Task<IResult> ListAsync(string? did, string? q, string? sort, PageContext page, GardenStore gardens, GardenAnswers answers, CancellationToken cancel)
    {
        var shown = new List<GardenAnswer>();
        foreach (var garden in await gardens.ListAsync(page.Owner.AccountId, "", Most, cancel))
            shown.Add(await answers.ShowAsync(garden, cancel));
        var query = ListQuery.Of(q, sort, ["name", "newest"]);
        var fitting = shown.Where(garden => query.Fits(garden.Name, garden.TimeZone, garden.HardinessZone));
        return Page<GardensPage>(new GardenListView(
            [.. query.Sort == "newest" ? fitting.OrderByDescending(garden => garden.CreatedAt) : fitting.OrderBy(garden => garden.Name, StringComparer.OrdinalIgnoreCase)],
            shown.Count, query, did == "deleted" ? page["Gardens.Deleted"] : null));
    }

    private static async Task<IResult> ShowAsync(Guid id, string? did, PageContext page, GardenStore gardens, GardenAnswers answers, CancellationToken cancel) =>
        await gardens.FindAsync(page.Owner.AccountId, id, cancel) is { } garden
            ? Page<GardenPage>(new GardenView(
                await answers.ShowAsync(garden, cancel), GardenForm.Of(garden, page.Locale), did == "changed" ? page["Gardens.Changed"] : null))
            : Missing();

    private static async Task<IResult> ChangeAsync(
        Guid id, FormBody form, PageContext page, ApiCall api, GardenStore gardens, GardenAnswers answers, CancellationToken cancel)
    {
        if (await gardens.FindAsync(page.Owner.AccountId, id, cancel) is not { } garden)
            return Missing();
        var changes = GardenForm.Changes(form, GardenForm.Of(garden, page.Locale), page.Locale);
        var answer = await api.PatchAsync("/gardens/{id:guid}", changes, id);
        return answer.IsTaken
            ? GoTo($"/gardens/{id}?did=changed")
            : Page<GardenPage>(new GardenView(await answers.ShowAsync(garden, cancel), FormState.Refused(form, answer), null), answer.Status);
    }

    private static async Task<IResult> AskAsync(Guid id, PageContext page, GardenStore gardens, TreeStore trees, CancellationToken cancel)
    {
        if (await gardens.FindAsync(page.Owner.AccountId, id, cancel) is not { } garden)
            return Missing();
        var count = (await trees.OfGardenAsync(page.Owner.AccountId, id, "", int.MaxValue, cancel)).Count;
        return Page<ConfirmPage>(new Confirmation(
            page["Gardens.DeleteTitle", garden.Name], page["Gardens.DeleteText", count], page["Gardens.Delete"], $"/gardens/{id}/delete", $"/gardens/{id}"));
    }

    private static async Task<IResult> DeleteAsync(Guid id, ApiCall api)
    {
        await api.DeleteAsync("/gardens/{id:guid}", id);
        return GoTo("/gardens?did=deleted");
    }
}
