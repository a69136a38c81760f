using Microsoft.AspNetCore.Http.HttpResults;
using Scheduler.Domain.Phenology;
using Scheduler.Service.Catalog;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Plans;

/// <summary>Where the species of a garden stand in their year.</summary>
internal static class SeasonApi
{
    public static async Task<Results<Ok<SeasonPage>, ProblemHttpResult>> SeasonAsync(
        Guid id, string? species, Caller caller, GardenStore gardens, GardenFactsLoader facts, CatalogContent catalog, CancellationToken cancel)
    {
        if (await gardens.FindAsync(caller.AccountId, id, cancel) is null)
            return Problems.NotFound();
        if (species is not null && !catalog.Species.ContainsKey(species))
        {
            var faults = new FieldFaults();
            faults.Add("species", $"species is '{FieldValue.Shorten(species)}', which is not in the catalog: try {string.Join(", ", catalog.NearestSpecies(species))}.");
            return Problems.Invalid(faults);
        }
        if (await facts.LoadAsync(id, cancel) is not { } picture)
            return Problems.NotFound();
        IEnumerable<Species> kinds = species is not null
            ? [catalog.Species[species]]
            : picture.Trees.Select(tree => tree.Species).DistinctBy(kind => kind.Id).OrderBy(kind => kind.Id, StringComparer.Ordinal);
        return TypedResults.Ok(new SeasonPage([.. kinds.Select(kind => Season(kind, picture))], null, FrostAnswer.Of(picture.Seasons.Current)));
    }

    private static SeasonAnswer Season(Species species, GardenPicture picture) => SeasonAnswer.Of(
        ShownSeason.Of(species, picture).Forecast, species.ThermalTimes.BaseC.Value, picture.Clock.SpringsLearned(species));
}
