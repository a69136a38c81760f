using System.Text.Json.Nodes;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Catalog;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Practice;

/// <summary>Where practice disagrees: each point with its choices, of which one is usual.</summary>
public static class PracticeRoutes
{
    public static void MapPractice(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/practice", async (string? did, PageContext page, AccountStore accounts, CurrentCatalog catalog, CancellationToken cancel) =>
        {
            var chosen = await accounts.SettingsAsync(page.Owner.AccountId, cancel);
            var points = catalog.Content.Craft.Settings;
            var form = FormState.With(points.All.Select(point => (Name(point), points.Of(point.Number, chosen))));
            return Page<PracticePage>(new PracticeView(points.All, form, did is not null));
        });
        mine.MapPost("/practice", ChangeAsync);
    }

    /// <summary>Name of a point's field.</summary>
    internal static string Name(PracticeSetting point) => "point-" + point.Number;

    // What is as usual is left out, so that it follows when the catalog changes its mind.
    private static async Task<IResult> ChangeAsync(FormBody form, ApiCall api, CurrentCatalog catalog)
    {
        var points = catalog.Content.Craft.Settings.All;
        var chosen = new JsonObject();
        foreach (var point in points)
        {
            if (form[Name(point)] is { } choice && choice != point.Default)
                chosen[point.Number] = choice;
        }
        var answer = await api.PutAsync("/accounts/me/settings", new JsonObject { ["settings"] = chosen });
        if (answer.IsTaken)
            return GoTo("/practice?did=changed");
        var faults = answer.Faults.ToDictionary(fault => fault.Key.Replace("settings.", "point-", StringComparison.Ordinal), fault => fault.Value);
        return Page<PracticePage>(new PracticeView(points, FormState.Refused(form, answer with { Faults = faults }), false), answer.Status);
    }
}

/// <param name="HasChanged">Choices were just saved.</param>
public sealed record PracticeView(IReadOnlyList<PracticeSetting> Points, FormState Form, bool HasChanged);
