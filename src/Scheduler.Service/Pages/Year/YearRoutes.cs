using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Domain.Trees;
using Scheduler.Service.Catalog;
using Scheduler.Service.Pages.Charts;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Today;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Year;

/// <summary>All windows of a year at a glance.</summary>
public static class YearRoutes
{
    private static readonly string[] Sorts = ["tree", "opens", "closes"];

    public static void MapYear(this IEndpointRouteBuilder routes) => routes.MapOwnedPages().MapGet("/year", ShowAsync);

    private static async Task<IResult> ShowAsync(
        Guid? garden, string? year, string? tree, string? technique, string? state, string? sort, string? @as, PageContext page, GardenStore gardens,
        TodayPictures pictures, WindowStore windows, CurrentCatalog catalog, IClock clock, CancellationToken cancel)
    {
        var all = (await gardens.ListAsync(page.Owner.AccountId, "", int.MaxValue, cancel)).OrderBy(one => one.CreatedAt).ToList();
        if ((garden is null ? all.FirstOrDefault() : all.Find(one => one.Id == garden)) is not { } shown)
            return garden is null ? GoTo("/start") : Missing();
        var today = shown.DateAt(clock.GetCurrentInstant());
        if (await pictures.OfAsync(shown.Id, today, cancel) is not { } picture)
            return Missing();
        var rows = (await windows.OfGardenAsync(shown.Id, cancel))
            .Where(window => window.State != WindowState.Withdrawn && !PromiseWindows.IsPromise(window.Key)).Select(YearRow.Of).OfType<YearRow>().ToList();
        var years = rows.SelectMany(row => new[] { row.Opens.Year, (row.Closes ?? row.Opens).Year }).Append(today.Year).Distinct().Order().ToList();
        var query = new YearQuery(
            int.TryParse(year, out var asked) && years.Contains(asked) ? asked : today.Year, Given(tree), Given(technique), Ids.TryParse<WindowState>(state ?? "", out _) ? state : null,
            Sorts.Contains(sort) ? sort! : Sorts[0], @as == "table" ? "table" : "chart");
        var axis = new DayAxis(new LocalDate(query.Year, 1, 1), new LocalDate(query.Year, 12, 31));
        var ofYear = rows.Where(row => axis.Touches(row.Early, row.Late ?? row.Closes ?? axis.Last)).ToList();
        return Page<YearPage>(new YearView(
            shown.Id, [.. all.Select(one => (one.Id, one.Name))], today, TodayBuilder.ZoneOf(shown), query, years, axis, Sorted(ofYear.Where(row => Fits(row, query)), query.Sort),
            ofYear.Count,
            [.. rows.Select(row => (Id: row.TreeId.ToString(), Name: row.TreeName)).DistinctBy(one => one.Id).OrderBy(one => one.Name, StringComparer.OrdinalIgnoreCase)],
            [.. rows.Select(row => row.Stored.Key.Technique).Distinct().Select(id => (id, catalog.Content.Craft.Find(id)?.Name ?? id)).OrderBy(one => one.Item2, StringComparer.OrdinalIgnoreCase)],
            picture.Weather));
    }

    private static string? Given(string? text) => string.IsNullOrWhiteSpace(text) ? null : text;

    private static bool Fits(YearRow row, YearQuery query) =>
        (query.Tree is null || row.TreeId.ToString() == query.Tree)
        && (query.Technique is null || row.Stored.Key.Technique == query.Technique)
        && (query.State is null || Ids.Of(row.Window.State) == query.State);

    private static IReadOnlyList<YearRow> Sorted(IEnumerable<YearRow> rows, string sort) => sort switch
    {
        "opens" => [.. rows.OrderBy(row => row.Opens).ThenBy(row => row.TreeName, StringComparer.OrdinalIgnoreCase)],
        "closes" => [.. rows.OrderBy(row => row.Closes ?? LocalDate.MaxIsoValue).ThenBy(row => row.TreeName, StringComparer.OrdinalIgnoreCase)],
        _ => [.. rows.OrderBy(row => row.TreeName, StringComparer.OrdinalIgnoreCase).ThenBy(row => row.TreeId).ThenBy(row => row.Opens)]
    };
}
