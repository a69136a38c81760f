using System.Collections.Concurrent;
using NodaTime;
using Scheduler.Domain.Planning;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Service.Feeds;
using Scheduler.Service.Planning;
using Scheduler.Service.Roads;

namespace Scheduler.Service.Plans;

/// <summary>Loads a garden's facts, lets the domain find the windows, stores what changed, raises notices and has the feeds rebuilt.</summary>
public sealed class GardenPlanner(
    GardenFactsLoader facts, WindowStore windows, WorkPlanner plans, INoticeBook notices, IFeedBuilder feeds, IClock clock) : IGardenPlanner
{
    private readonly ConcurrentDictionary<Guid, SemaphoreSlim> _turns = new();

    public async Task ReplanAsync(Guid gardenId, CancellationToken cancel = default)
    {
        // One planning of a garden at a time: two at once would announce the same window under two ids.
        var turn = _turns.GetOrAdd(gardenId, _ => new SemaphoreSlim(1));
        await turn.WaitAsync(cancel);
        try
        {
            if (await facts.LoadAsync(gardenId, cancel) is not { } picture)
                return;
            await AnnounceAsync(picture, Found(picture), cancel);
            await notices.RaiseAsync(gardenId, cancel);
        }
        finally
        {
            turn.Release();
        }
        await feeds.RebuildForGardenAsync(gardenId, cancel);
    }

    /// <summary>What the rules find today, before it is compared with what is announced.</summary>
    internal static IReadOnlyList<TreeWindows> Found(GardenPicture picture) =>
        [.. picture.Trees.Select(tree => new TreeWindows(tree.Tree.Id, tree.Tree.Name, Found(tree, picture)))];

    /// <summary>Keeps what changed of the announced windows, and the plan that follows from them.</summary>
    internal async Task AnnounceAsync(GardenPicture picture, IReadOnlyList<TreeWindows> found, CancellationToken cancel)
    {
        var (garden, now) = (picture.Inputs.Garden, clock.GetCurrentInstant());
        var announced = await windows.OfGardenAsync(garden.Id, cancel);
        var calm = new CalmDates(picture.Craft.Planning);
        await windows.SaveAsync(garden.Id, WindowDiff.Changes(garden.Id, garden.Name, announced, found, calm, picture.Today, now), picture.Today, now, cancel);
        await plans.MakeAsync(picture, cancel);
    }

    private static WindowSet Found(TreeFacts tree, GardenPicture picture) => PromiseWindows.With(
        WindowFinder.Find(picture.Craft, tree, picture.Garden), picture.Craft,
        PromiseFinder.Find(picture.Craft, tree, picture.Garden), tree.Current.Year.Hemisphere);
}
