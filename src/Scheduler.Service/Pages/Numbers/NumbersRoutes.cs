using Scheduler.Service.Catalog;
using Scheduler.Service.Pages.Frame;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Numbers;

/// <summary>Where the numbers behind a technique's advice come from.</summary>
public static class NumbersRoutes
{
    public static void MapNumbers(this IEndpointRouteBuilder routes) => routes.MapOpenPages().MapGet("/numbers/{technique}", (string technique, PageContext page, CurrentCatalog catalog) =>
        catalog.Content.Craft.Find(technique) is { } found
            ? Page<NumbersPage>(new NumbersView(found.Name, found.Purpose, FigureRows.Of(found, page.Locale)))
            : Missing()).Shrunk();
}

public sealed record NumbersView(string Name, string Purpose, IReadOnlyList<FigureRow> Rows);
