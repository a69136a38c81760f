using System.Text.Json.Nodes;
using Scheduler.Domain.Trees;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Trees;

/// <summary>
/// Branches that differ from the rest of their tree: one row each and empty rows for new ones. The API takes all of them at once; the
/// names of fields are the places in that list, so that a fault finds its row.
/// </summary>
public static class BranchRoutes
{
    private const int NewRows = 2;
    private static readonly string[] Texts = ["id", "crownZone", "stage", "girth", "role", "fault"];

    public static void MapBranchPage(this RouteGroupBuilder mine)
    {
        mine.MapGet("/trees/{id:guid}/branches", ShowAsync);
        mine.MapPost("/trees/{id:guid}/branches", SaveAsync);
    }

    private static async Task<IResult> ShowAsync(Guid id, PageContext page, TreeStore trees, CancellationToken cancel) =>
        await trees.FindAsync(page.Owner.AccountId, id, cancel) is { } stored
            ? Page<BranchesPage>(new BranchesView(stored.Tree, stored.Tree.Branches.Count + NewRows, Of(stored.Tree, page)))
            : Missing();

    private static async Task<IResult> SaveAsync(Guid id, FormBody form, PageContext page, ApiCall api, TreeStore trees, CancellationToken cancel)
    {
        if (await trees.FindAsync(page.Owner.AccountId, id, cancel) is not { } stored)
            return Missing();
        // Rows without any entry fall out, so what is shown after a fault stands in the places that the fault names.
        var rows = Enumerable.Range(0, Count(form)).Where(row => Fields(row).Any(name => form[name] is not null)).ToList();
        var moved = new FormBody(rows.SelectMany((row, place) => Fields(row).Zip(Fields(place))).Where(pair => form[pair.First] is not null)
            .ToDictionary(pair => pair.Second, pair => new Microsoft.Extensions.Primitives.StringValues([.. form.All(pair.First)])));
        var list = new JsonArray([.. rows.Select((_, place) => (JsonNode)Branch(moved, place, page))]);
        var answer = await api.PatchAsync("/trees/{id:guid}", new JsonObject { ["branches"] = list }, id);
        return answer.IsTaken
            ? GoTo($"/trees/{id}#state")
            : Page<BranchesPage>(new BranchesView(stored.Tree, rows.Count + NewRows, FormState.Refused(moved, answer)), answer.Status);
    }

    internal static string Field(int row, string name) => $"branches[{row}].{name}";

    private static IEnumerable<string> Fields(int row) => Texts.Concat(["goals", "density", "thicknessMm", "wired"]).Select(name => Field(row, name));

    private static int Count(FormBody form) => form.Names.Select(name => name.Split('[', ']')).Where(parts => parts is ["branches", _, ..] && int.TryParse(parts[1], out _))
        .Select(parts => int.Parse(parts[1], System.Globalization.CultureInfo.InvariantCulture) + 1).Where(count => count <= 100).DefaultIfEmpty(0).Max();

    private static JsonObject Branch(FormBody form, int place, PageContext page)
    {
        var prefix = Field(place, "");
        var own = new FormBody(form.Names.Where(name => name.StartsWith(prefix, StringComparison.Ordinal))
            .ToDictionary(name => name[prefix.Length..], name => new Microsoft.Extensions.Primitives.StringValues([.. form.All(name)])));
        var json = own.Json(page.Locale.Culture).Text(Texts).Number("density", "thicknessMm").Flag("wired");
        return (own["goals"] is null ? json : json.List("goals")).Object;
    }

    private static FormState Of(Tree tree, PageContext page) => FormState.With(tree.Branches.SelectMany((branch, row) => new (string, string?)[]
    {
        (Field(row, "id"), branch.Id), (Field(row, "crownZone"), branch.CrownZone is { } zone ? Ids.Of(zone) : null),
        (Field(row, "stage"), branch.Stage is { } stage ? Ids.Of(stage) : null), (Field(row, "girth"), branch.Girth is { } girth ? Ids.Of(girth) : null),
        (Field(row, "role"), branch.Role is { } role ? Ids.Of(role) : null), (Field(row, "fault"), branch.Fault),
        (Field(row, "density"), branch.Density?.ToString(page.Locale.Culture)), (Field(row, "thicknessMm"), branch.ThicknessMm?.ToString(page.Locale.Culture)),
        (Field(row, "wired"), branch.Wired switch { true => "true", false => "false", null => null })
    }.Concat((branch.Goals ?? []).Select(goal => (Field(row, "goals"), (string?)Ids.Of(goal))))));
}

/// <param name="Rows">How many rows the form has, with empty ones.</param>
public sealed record BranchesView(Tree Tree, int Rows, FormState Form);
