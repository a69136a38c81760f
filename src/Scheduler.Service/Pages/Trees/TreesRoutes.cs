using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Gardens;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Layout;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Trees;

/// <summary>The list of trees, and adding, changing and removing one.</summary>
public static class TreesRoutes
{
    private static readonly string[] Sorts = ["name", "species", "next"];

    public static void MapTreePages(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/trees", ListAsync).Shrunk();
        mine.MapGet("/trees/new", NewAsync).Shrunk();
        mine.MapPost("/trees/new", AddAsync);
        mine.MapGet("/trees/{id:guid}/edit", EditAsync);
        mine.MapPost("/trees/{id:guid}/edit", ChangeAsync);
        mine.MapGet("/trees/{id:guid}/remove", AskAsync);
        mine.MapPost("/trees/{id:guid}/remove", RemoveAsync);
        mine.MapTreePage();
        mine.MapBranchPage();
    }

    private static async Task<IResult> ListAsync(
        string? q, Guid? garden, string? now, string? sort, PageContext page, GardenStore gardens, TreeStore trees, WindowStore windows, SpeciesNames species, IClock clock,
        CancellationToken cancel)
    {
        var query = new TreesQuery(string.IsNullOrWhiteSpace(q) ? null : q.Trim(), garden, now is "open" ? now : null, Sorts.Contains(sort) ? sort! : Sorts[0]);
        var all = (await gardens.ListAsync(page.Owner.AccountId, "", int.MaxValue, cancel)).OrderBy(one => one.CreatedAt).ToList();
        var today = all.FirstOrDefault()?.DateAt(clock.GetCurrentInstant()) ?? clock.GetCurrentInstant().InUtc().Date;
        var rows = new List<TreeRow>();
        foreach (var one in all)
            rows.AddRange(await RowsAsync(one, page.Owner.AccountId, trees, windows, species, cancel));
        var shown = rows.Where(row => Fits(row, query));
        shown = query.Sort switch
        {
            "species" => shown.OrderBy(row => row.Species, StringComparer.OrdinalIgnoreCase).ThenBy(row => row.Tree.Name, StringComparer.OrdinalIgnoreCase),
            "next" => shown.OrderBy(row => row.Next?.Date ?? LocalDate.MaxIsoValue).ThenBy(row => row.Tree.Name, StringComparer.OrdinalIgnoreCase),
            _ => shown.OrderBy(row => row.Tree.Name, StringComparer.OrdinalIgnoreCase)
        };
        return Page<TreesPage>(new TreesView([.. all.Select(one => (one.Id, one.Name))], [.. shown], rows.Count, query, today));
    }

    private static async Task<IEnumerable<TreeRow>> RowsAsync(
        Garden garden, Guid accountId, TreeStore trees, WindowStore windows, SpeciesNames species, CancellationToken cancel)
    {
        var open = (await windows.OfGardenAsync(garden.Id, cancel))
            .Where(window => window.State is WindowState.Open or WindowState.Forecast).ToLookup(window => window.Key.TreeId);
        return (await trees.OfGardenAsync(accountId, garden.Id, "", int.MaxValue, cancel)).Select(stored => new TreeRow(
            stored.Tree, garden.Id, garden.Name, species.Label(stored.Tree.SpeciesId),
            open[stored.Tree.Id].Count(window => window.State == WindowState.Open), Next(open[stored.Tree.Id])));
    }

    private static (string, LocalDate, bool)? Next(IEnumerable<StoredWindow> windows) => windows
        .Select(window => (window.Body.Window.Title, Date: window.State == WindowState.Open ? window.Body.Window.Closes.Likely : window.Body.Window.Opens.Likely,
            IsOpen: window.State == WindowState.Open))
        .Where(next => next.Date is not null).OrderBy(next => next.Date)
        .Select(next => ((string, LocalDate, bool)?)(next.Title, next.Date!.Value, next.IsOpen)).FirstOrDefault();

    private static bool Fits(TreeRow row, TreesQuery query) =>
        (query.Text is null || row.Tree.Name.Contains(query.Text, StringComparison.OrdinalIgnoreCase) || row.Species.Contains(query.Text, StringComparison.OrdinalIgnoreCase)
            || row.Tree.Cultivar?.Contains(query.Text, StringComparison.OrdinalIgnoreCase) == true)
        && (query.Garden is null || row.GardenId == query.Garden) && (query.Now is null || row.Open > 0);

    private static async Task<IResult> NewAsync(
        Guid? garden, string? from, PageContext page, GardenStore gardens, GardenAnswers answers, CancellationToken cancel) =>
        await GardenAsync(garden, page, gardens, cancel) is { } found
            ? Page<NewTreePage>(new NewTreeView(await answers.ShowAsync(found, cancel), TreeForms.New(), from == "start"))
            : garden is null ? GoTo("/start") : Missing();

    private static async Task<IResult> AddAsync(
        Guid? garden, string? from, FormBody form, PageContext page, ApiCall api, TreeForms forms, GardenStore gardens, GardenAnswers answers, CancellationToken cancel)
    {
        if (await GardenAsync(garden, page, gardens, cancel) is not { } found)
            return Missing();
        var answer = await api.PostAsync("/gardens/{id:guid}/trees", forms.Json(form, page, false), form, found.Id);
        return answer.IsTaken
            ? GoTo(from == "start" ? "/start/calendar" : $"/trees/{answer.Id}")
            : Page<NewTreePage>(new NewTreeView(await answers.ShowAsync(found, cancel), forms.Refused(form, answer, page), from == "start"), answer.Status);
    }

    private static async Task<Garden?> GardenAsync(Guid? id, PageContext page, GardenStore gardens, CancellationToken cancel) => id is { } given
        ? await gardens.FindAsync(page.Owner.AccountId, given, cancel)
        : (await gardens.ListAsync(page.Owner.AccountId, "", int.MaxValue, cancel)).MinBy(one => one.CreatedAt);

    private static async Task<IResult> EditAsync(Guid id, PageContext page, TreeStore trees, TreeForms forms, CancellationToken cancel) =>
        await trees.FindAsync(page.Owner.AccountId, id, cancel) is { } stored
            ? Page<EditTreePage>(new EditTreeView(stored.Tree, forms.Of(stored.Tree)))
            : Missing();

    private static async Task<IResult> ChangeAsync(
        Guid id, FormBody form, PageContext page, ApiCall api, TreeStore trees, TreeForms forms, CancellationToken cancel)
    {
        if (await trees.FindAsync(page.Owner.AccountId, id, cancel) is not { } stored)
            return Missing();
        var answer = await api.PatchAsync("/trees/{id:guid}", forms.Json(form, page, true), id);
        return answer.IsTaken ? GoTo($"/trees/{id}") : Page<EditTreePage>(new EditTreeView(stored.Tree, forms.Refused(form, answer, page)), answer.Status);
    }

    private static async Task<IResult> AskAsync(Guid id, PageContext page, TreeStore trees, CancellationToken cancel) =>
        await trees.FindAsync(page.Owner.AccountId, id, cancel) is { } stored ? Page<RemoveTreePage>(stored.Tree) : Missing();

    // Gone already: the second of two taps.
    private static async Task<IResult> RemoveAsync(Guid id, ApiCall api)
    {
        await api.DeleteAsync("/trees/{id:guid}", id);
        return GoTo("/trees");
    }
}
