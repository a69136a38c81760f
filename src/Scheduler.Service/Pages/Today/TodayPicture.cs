using System.Collections.Concurrent;
using Dapper;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Pages.Today;

/// <summary>What was announced for a garden and what else its page needs: phases about to be seen, tonight at the bench, how fresh the weather is.</summary>
public sealed record TodayPicture(
    IReadOnlyList<StoredWindow> Windows, double? TonightMinC, IReadOnlyList<PhaseGroup> Phases, bool HasTrees, WeatherStatus Weather);

/// <summary>
/// Keeps the picture of each garden until the garden is planned anew, which every change of its trees, its log and its weather brings
/// about: looking at a page must not date the season again.
/// </summary>
public sealed class TodayPictures(GardenFactsLoader facts, WindowStore windows, Database database)
{
    private const int MostGardens = 200;

    /// <summary>Windows that open later are not kept: neither the page nor the next planned day speaks of them.</summary>
    private const int DaysKept = 100;

    /// <summary>A phase is asked for from this many days before its early date until this many after its likely one.</summary>
    private const int DaysAhead = 5;
    private const int DaysAfter = 14;

    private readonly ConcurrentDictionary<Guid, (string Print, TodayPicture Picture)> _kept = new();

    public async Task<TodayPicture?> OfAsync(Guid gardenId, LocalDate today, CancellationToken cancel)
    {
        var print = $"{today:uuuu-MM-dd} {await PrintAsync(gardenId, cancel)}";
        if (_kept.TryGetValue(gardenId, out var kept) && kept.Print == print)
            return kept.Picture;
        if (await facts.LoadAsync(gardenId, cancel) is not { } picture)
            return null;
        if (_kept.Count >= MostGardens)
            _kept.Clear();
        var made = new TodayPicture(
            [.. (await windows.OfGardenAsync(gardenId, cancel)).Where(window => IsNear(window, today))], new BenchNights(picture.Garden, picture.Craft.Thresholds).MinC(0), Phases(picture), picture.Trees.Count > 0, picture.Weather);
        _kept[gardenId] = (print, made);
        return made;
    }

    private static bool IsNear(StoredWindow window, LocalDate today) => window.State is WindowState.Open or WindowState.Held
        || (window.State is WindowState.Forecast && window.Body.Window.Opens.Likely <= today.PlusDays(DaysKept));

    // When it was last planned, and for clocks that stand still what planning may have changed.
    internal async Task<string?> PrintAsync(Guid gardenId, CancellationToken cancel)
    {
        await using var connection = await database.OpenAsync(cancel);
        return await connection.ExecuteScalarAsync<string>(
            """
            SELECT g.planned_at || ' ' || (SELECT COUNT(*) || ' ' || COALESCE(SUM(w.sequence), 0) || ' ' || COALESCE(MAX(w.changed_at), '') FROM windows w WHERE w.garden_id = g.id)
                || ' ' || (SELECT COUNT(*) FROM observations o WHERE o.garden_id = g.id) || ' ' || (SELECT COUNT(*) || COALESCE(MAX(t.changed_at), '') FROM trees t WHERE t.garden_id = g.id)
            FROM gardens g WHERE g.id = @gardenId
            """,
            new { gardenId });
    }

    private static List<PhaseGroup> Phases(GardenPicture picture) =>
    [
        .. from tree in picture.Trees
           let next = Next(tree.Current, picture.Today)
           where next is not null
           group (tree, next) by (tree.Species.Id, next.Phase.Id) into same
           let first = same.First()
           orderby first.next.Band.Likely
           select new PhaseGroup(
               first.next.Phase.Id, first.tree.Species.CommonName, same.Min(one => one.next.Band.Early), same.Max(one => one.next.Band.Late ?? one.next.Band.Likely),
               [.. same.OrderBy(one => one.tree.Tree.Name, StringComparer.OrdinalIgnoreCase).Select(one => (one.tree.Tree.Id, one.tree.Tree.Name))])
    ];

    // The first that was not seen yet and is near; later phases follow once it was.
    private static PhaseForecast? Next(GrowthOutlook outlook, LocalDate today) => PhaseForecaster.Forecast(outlook, null).Phases
        .SkipWhile(phase => phase.Seen)
        .FirstOrDefault(phase => phase is { Seen: false, Band: { Early: { } early, Likely: { } likely } }
            && phase.Phase != GrowthPhase.Dormant && early <= today.PlusDays(DaysAhead) && likely >= today.PlusDays(-DaysAfter));
}
