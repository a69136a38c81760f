using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Catalog;

/// <summary>The catalog as anybody may read it: each number with its provenance and, where published, its source.</summary>
public static class CatalogApi
{
    public static IEndpointRouteBuilder MapCatalog(this IEndpointRouteBuilder app)
    {
        ArgumentNullException.ThrowIfNull(app);
        var catalog = app.MapGroup("/api/v1").WithTags("Catalog").AllowAnonymous();
        catalog.MapGet("/species", ListSpecies).WithName("ListSpecies").WithSummary("All species, by id");
        catalog.MapGet("/species/{id}", FindSpecies).WithName("FindSpecies").WithSummary("One species");
        catalog.MapGet("/techniques", ListTechniques).WithName("ListTechniques").WithSummary("All techniques with their rules, by id");
        catalog.MapGet("/techniques/{id}", FindTechnique).WithName("FindTechnique").WithSummary("One technique with its rules");
        catalog.MapGet("/reasons", ListReasons).WithName("ListReasons").WithSummary("What the ids of reasons, weather holds and modes mean");
        catalog.MapGet("/catalog", (CurrentCatalog current) => CatalogAnswer.Of(current)).WithName("Catalog")
            .WithSummary("When the catalog was read, from which files of the owner's folder, and what was wrong with a later change");
        catalog.MapGet("/groups", ListGroups).WithName("ListGroups").WithSummary("Technique groups: plants that answer alike");
        catalog.MapGet("/settings", ListSettings).WithName("ListSettings").WithSummary("Points where practice disagrees, their choices and defaults");
        catalog.MapGet("/thresholds", ListThresholds).WithName("ListThresholds").WithSummary("Numbers that several techniques or all species share, with provenance");
        return app;
    }

    private static Results<Ok<CatalogPage<GroupResponse>>, ProblemHttpResult> ListGroups(CatalogContent catalog, string? limit, string? after) =>
        Page(catalog.Craft.Groups.Values, group => group.Code, group => GroupResponse.Of(group, catalog), limit, after);

    private static Results<Ok<CatalogPage<PracticeSetting>>, ProblemHttpResult> ListSettings(CatalogContent catalog, string? limit, string? after) =>
        Page(catalog.Craft.Settings.All, setting => setting.Number.PadLeft(3, '0'), setting => setting, limit, after);

    private static Results<Ok<CatalogPage<ThresholdResponse>>, ProblemHttpResult> ListThresholds(CatalogContent catalog, string? limit, string? after) =>
        Page(ThresholdResponse.All(catalog.Craft.Thresholds).Concat(ThresholdResponse.All(catalog.GrowthRules)), threshold => threshold.Id, threshold => threshold, limit, after);

    private static Results<Ok<CatalogPage<SpeciesResponse>>, ProblemHttpResult> ListSpecies(CatalogContent catalog, string? limit, string? after) =>
        Page(catalog.Species.Values, species => species.Id, SpeciesResponse.Of, limit, after);

    private static Results<Ok<SpeciesResponse>, ProblemHttpResult> FindSpecies(CatalogContent catalog, string id) =>
        catalog.Species.TryGetValue(id, out var species)
            ? TypedResults.Ok(SpeciesResponse.Of(species))
            : Unknown("species", id, catalog.NearestSpecies(id));

    private static Results<Ok<CatalogPage<Technique>>, ProblemHttpResult> ListTechniques(CatalogContent catalog, string? limit, string? after) =>
        Page(catalog.Craft.Techniques, technique => technique.Id, technique => technique, limit, after);

    private static Results<Ok<Technique>, ProblemHttpResult> FindTechnique(CatalogContent catalog, string id) =>
        catalog.Craft.Find(id) is { } technique
            ? TypedResults.Ok(technique)
            : Unknown("technique", id, NearestIds.Of(id, catalog.Craft.Techniques.Select(known => known.Id)));

    private static Results<Ok<CatalogPage<MeaningResponse>>, ProblemHttpResult> ListReasons(CatalogContent catalog, string? limit, string? after) =>
        Page(
            Meanings("reason", catalog.Craft.Reasons).Concat(Meanings("hold", catalog.Craft.Holds)).Concat(Meanings("mode", catalog.Craft.Modes)),
            meaning => $"{meaning.Kind}:{meaning.Id}", meaning => meaning, limit, after);

    private static IEnumerable<MeaningResponse> Meanings(string kind, IReadOnlyDictionary<string, string> sentences) =>
        sentences.Select(entry => new MeaningResponse(kind, entry.Key, entry.Value));

    private static Results<Ok<CatalogPage<TShown>>, ProblemHttpResult> Page<T, TShown>(
        IEnumerable<T> all, Func<T, string> id, Func<T, TShown> show, string? limit, string? after)
    {
        var most = MostItems;
        if (limit is not null && (!int.TryParse(limit, NumberStyles.None, CultureInfo.InvariantCulture, out most) || most is < 1 or > MostItems))
        {
            return TypedResults.Problem(new HttpValidationProblemDetails(new Dictionary<string, string[]>
            {
                ["limit"] = [$"Give a whole number from 1 to {MostItems}, or leave it out."]
            })
            {
                Status = StatusCodes.Status400BadRequest
            });
        }
        var rest = all.OrderBy(id, StringComparer.Ordinal)
            .Where(one => after is null || string.CompareOrdinal(id(one), after) > 0)
            .ToList();
        var page = rest.Take(most).ToList();
        return TypedResults.Ok(new CatalogPage<TShown>([.. page.Select(show)], page.Count < rest.Count ? id(page[^1]) : null));
    }

    private static ProblemHttpResult Unknown(string kind, string id, IReadOnlyList<string> nearest) => TypedResults.Problem(
        statusCode: StatusCodes.Status404NotFound,
        title: "Not Found",
        detail: $"There is no {kind} '{(id.Length > LongestShown ? id[..LongestShown] + "..." : id)}'. Nearest: {string.Join(", ", nearest)}.",
        extensions: new Dictionary<string, object?> { ["nearest"] = nearest });

    // The whole catalog is smaller than this, so that a plain call shows all of it.
    private const int MostItems = 200;
    private const int LongestShown = 60;
}

/// <summary>One page of a catalog list; <see cref="Next"/> is what to give as <c>after</c>, or null at the end.</summary>
public sealed record CatalogPage<T>(IReadOnlyList<T> Items, string? Next);

/// <summary>What an id means. Kind: <c>reason</c>, <c>hold</c> or <c>mode</c>.</summary>
public sealed record MeaningResponse(string Kind, string Id, string Text);
