using System.Text.Json.Nodes;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Catalog;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Layout;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Practice;

/// <summary>Where practice disagrees: each point with its choices, of which one is usual.</summary>
public static class PracticeRoutes
{
    public static void MapPractice(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/practice", async (string? did, string? q, string? sort, PageContext page, AccountStore accounts, CurrentCatalog catalog, CancellationToken cancel) =>
        {
            var chosen = await accounts.SettingsAsync(page.Owner.AccountId, cancel);
            var points = catalog.Content.Craft.Settings;
            var form = FormState.With(points.All.Select(point => (Name(point), points.Of(point.Number, chosen))));
            return Page<PracticePage>(PracticeView.Of(points.All, chosen, ListQuery.Of(q, sort, PracticeView.Sorts), form) with { HasChanged = did is not null });
        });
        mine.MapPost("/practice", ChangeAsync);
    }

    /// <summary>Name of a point's field.</summary>
    internal static string Name(PracticeSetting point) => "point-" + point.Number;

    // What is as usual is left out, so that it follows when the catalog changes its mind. A point that the search left out stays as it was.
    private static async Task<IResult> ChangeAsync(FormBody form, PageContext page, ApiCall api, AccountStore accounts, CurrentCatalog catalog, CancellationToken cancel)
    {
        var points = catalog.Content.Craft.Settings;
        var kept = await accounts.SettingsAsync(page.Owner.AccountId, cancel);
        var chosen = new JsonObject();
        foreach (var point in points.All)
        {
            if ((form[Name(point)] ?? points.Of(point.Number, kept)) is var choice && choice != point.Default)
                chosen[point.Number] = choice;
        }
        var query = ListQuery.Of(form["q"], form["sort"], PracticeView.Sorts);
        var answer = await api.PutAsync("/accounts/me/settings", new JsonObject { ["settings"] = chosen });
        if (answer.IsTaken)
            return GoTo($"/practice?did=changed&q={Uri.EscapeDataString(query.Text ?? "")}&sort={query.Sort}");
        var faults = answer.Faults.ToDictionary(fault => fault.Key.Replace("settings.", "point-", StringComparison.Ordinal), fault => fault.Value);
        return Page<PracticePage>(PracticeView.Of(points.All, kept, query, FormState.Refused(form, answer with { Faults = faults })), answer.Status);
    }
}

/// <summary>The points that fit what is searched for.</summary>
/// <param name="Count">Before the search.</param>
public sealed record PracticeView(IReadOnlyList<PracticeSetting> Points, int Count, ListQuery Query, FormState Form)
{
    /// <summary>Orders of the list; the first is that of the catalog.</summary>
    public static readonly IReadOnlyList<string> Sorts = ["usual", "question", "own"];

    /// <summary>Choices were just saved.</summary>
    public bool HasChanged { get; init; }

    public static PracticeView Of(IReadOnlyList<PracticeSetting> all, IReadOnlyDictionary<string, string> chosen, ListQuery query, FormState form)
    {
        ArgumentNullException.ThrowIfNull(all);
        ArgumentNullException.ThrowIfNull(query);
        var fitting = all.Where(point => query.Fits([point.Question, .. point.Choices.Values]));
        return new PracticeView(
            [.. query.Sort switch
            {
                "question" => fitting.OrderBy(point => point.Question, StringComparer.OrdinalIgnoreCase),
                "own" => fitting.OrderByDescending(point => chosen.ContainsKey(point.Number)),
                _ => fitting
            }],
            all.Count, query, form);
    }
}
