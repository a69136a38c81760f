using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Phenology;
using Scheduler.Service.Catalog;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Today;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Pages.Trees;

/// <summary>Gathers all there is to say of one tree.</summary>
public sealed class TreeBuilder(
    TreeStore trees, GardenStore gardens, GardenFactsLoader facts, WindowStore windows, TreeHardiness hardiness, CurrentCatalog catalog)
{
    private const int UsualHistory = 20;

    /// <summary>Null: the owner has no such tree.</summary>
    public async Task<TreeView?> BuildAsync(Guid accountId, Guid id, HistoryQuery query, FormState? work, FormState? seen, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(query);
        if (await trees.FindAsync(accountId, id, cancel) is not { } stored
            || await gardens.FindAsync(accountId, stored.GardenId, cancel) is not { } garden
            || await facts.LoadAsync(stored.GardenId, cancel) is not { } picture
            || picture.Trees.FirstOrDefault(one => one.Tree.Id == id) is not { } tree)
        {
            return null;
        }
        var content = catalog.Content;
        var history = query.Of(tree.Work.Select(done => new HistoryEntry(done.Date, done, null)).Concat(tree.Observations.Select(one => new HistoryEntry(one.Date, null, one))));
        var promises = PromisesApi.Of(tree, picture, content).OrderBy(promise => promise.Due.Likely ?? LocalDate.MaxIsoValue).ToList();
        var today = LocalDatePattern.Iso.Format(picture.Today);
        return new TreeView(
            stored, tree.Species, garden, hardiness.Show(stored, await hardiness.ZoneAsync(garden, cancel)).Hardiness, picture.Today, TodayBuilder.ZoneOf(garden),
            Phases(tree.Current), AdviceApi.Of(tree, picture, content, await windows.OfGardenAsync(stored.GardenId, cancel)),
            content.Craft.Techniques.ToDictionary(technique => technique.Id, technique => technique.Name), promises,
            query.IsWhole ? history : [.. history.Take(UsualHistory)], history.Count, query, WorkChoices(content),
            work ?? FormState.With(("date", today)), seen ?? FormState.With(("date", today)), picture.Weather);
    }

    private static IReadOnlyList<PhaseForecast> Phases(GrowthOutlook outlook) =>
        outlook.Scale.Species.GrowsWheneverWarm ? [] : [.. PhaseForecaster.Forecast(outlook, null).Phases.Where(phase => phase.Phase != GrowthPhase.Dormant)];

    /// <summary>Techniques with their modes, as one list: which modes there are depends on the technique.</summary>
    private static IReadOnlyList<(string, string)> WorkChoices(CatalogContent content) =>
    [
        .. content.Craft.Techniques.OrderBy(technique => technique.Name, StringComparer.OrdinalIgnoreCase).SelectMany(technique =>
            technique.Modes.Select(mode => mode.Id).OfType<string>().Distinct().Select(mode => ($"{technique.Id}/{mode}", $"{technique.Name}: {mode.Replace('-', ' ')}"))
                .Prepend((technique.Id, technique.Name)))
    ];
}
