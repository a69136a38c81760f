using System.Globalization;
using NodaTime;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Trees;
using Scheduler.Service.Catalog;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Plans;

/// <summary>Compares a reported date with what the garden's growth clock believes of that spring.</summary>
public sealed class ObservationJudge(PlanInputStore inputs, SeasonCache seasons, GardenFactsLoader facts, CurrentCatalog catalog) : IObservationJudge
{
    public async Task<string?> QuestionAsync(StoredTree tree, Observation seen, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentNullException.ThrowIfNull(seen);
        if (!SpeciesClock.Teaches(seen) || seen.Bbch is not { } bbch)
            return null;
        // The ensembles kept from the last planning will do: a day more of weather does not make a date plausible.
        var clock = seasons.Kept(tree.GardenId) is { } kept && await inputs.ReadAsync(tree.GardenId, cancel) is { } stored
            ? new SpeciesClock(catalog.Content, kept, stored)
            : (await facts.LoadAsync(tree.GardenId, cancel))?.Clock;
        return clock?.Doubt(catalog.Content.Species[tree.Tree.SpeciesId], bbch, seen.Date) is { } doubt ? Question(seen.Date, doubt) : null;
    }

    private static string Question(LocalDate date, DoubtfulDate doubt)
    {
        var days = Period.DaysBetween(date, doubt.Expected);
        var apart = Math.Abs(days).ToString(CultureInfo.InvariantCulture);
        var expected = doubt.Expected.ToString("d MMMM uuuu", CultureInfo.InvariantCulture);
        return days > 0
            ? $"By this garden's weather it was to be expected about {expected}, {apart} days later: are the date and the growth stage right? It is kept, but counts little until other springs agree."
            : $"By this garden's weather it was to be expected about {expected}, {apart} days earlier: was this the day it came, or the day of the first look? It is kept, but counts little until other springs agree.";
    }
}
